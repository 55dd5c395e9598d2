// The engine that evaluates sheets, by kind. Twin of fieldapp/trade/estimate/__init__.py: it knows no trade.
import * as band from "./estimate_band.js";
import * as digit from "./estimate_digits.js";
import * as linear from "./estimate_linear.js";
import * as rule from "./estimate_rules.js";

const ENGINES = {linear, band, rule, digit};

/** {what: verdict} of each judged quantity of a sheet; null where an input is missing. */
export const judge = (sheet, given) => ENGINES[sheet.kind].judge(sheet, given);

/** The whole answer of a sheet. */
export const answer = (sheet, given) => ENGINES[sheet.kind].answer(sheet, given);
