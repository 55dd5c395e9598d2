// What a key of the number pad does to the text. Pure: text in, text out; the test types spoken readings key by key.
// `at` is {text, face}: face 2 is open while a fraction is being typed ("88 and 13 sixteenths" is 8 8 and 1 3 /16).

const FRACTION = /^(.*?)(\d*)\/(\d+)$/;
const NUMBER = /^[+-]?[\d.,' ]*$/;

/** A fresh line, or the line of a draft. */
export const begin = (text = "") => ({ text, face: text.includes("/") ? 2 : 1 });

function digit({ text, face }, key) {
  const f = FRACTION.exec(text);
  return f ? { text: `${f[1]}${f[2]}${key}/${f[3]}`, face: 2 } : { text: text + key, face };
}

// With nothing typed after "and" a denominator alone is one of it: "and a half".
function denominator({ text }, den) {
  const [, before, top] = FRACTION.exec(text) ?? /^(.*?)(\d*)$/.exec(text);
  return { text: `${before}${top || "1"}/${den}`, face: 2 };
}

function and({ text, face }) {
  if (face === 2 || /[.,]\d*$/.test(text)) return { text, face };
  return { text: /\d$/.test(text) ? `${text} ` : text, face: 2 };
}

function rub({ text, face }) {
  const f = FRACTION.exec(text);
  if (f) return { text: f[1] + f[2], face: 2 };
  if (face === 2 && !/\d$/.test(text)) return { text: text.replace(/ $/, ""), face: 1 };
  return { text: text.endsWith(" ft ") ? text.slice(0, -4) : text.slice(0, -1), face };
}

// "+" stays visible until the figure is kept, so that a direction is a choice and never a default.
function sign({ text, face }, mark) {
  const bare = text.replace(/^[+-]/, "");
  return { text: text.startsWith(mark) ? bare : mark + bare, face };
}

/** The line after `key`: a digit, `.`, `and`, `/2` … `/32`, `ft`, `+`, `-`, `±`, `rub`. */
export function press(at, key) {
  if (/^\d$/.test(key)) return digit(at, key);
  if (key.startsWith("/")) return denominator(at, key.slice(1));
  switch (key) {
    case "and": return and(at);
    case "rub": return rub(at);
    case ".": return /[.,]/.test(at.text) || at.face === 2 ? at : { ...at, text: `${at.text}.` };
    case "ft": return /\d$/.test(at.text) && !/ft|\//.test(at.text) ? { text: `${at.text} ft `, face: 1 } : at;
    case "±": return sign(at, "-");
    case "+": case "-": return sign(at, key);
    default: return at;
  }
}

/** The text as it will be kept: the chosen unit put behind a figure that names none ("in" behind a bare fraction,
 *  which reads as inches anyway), "+" left out. */
export function withUnit(text, unit) {
  const t = text.trim().replace(/^\+\s*/, "").replace(/^-\s*(?=0*([.,]0*)?$)/, "");
  if (!t) return "";
  if (/ft$/.test(t)) return t;
  if (/ ft /.test(t)) return `${t} in`;
  if (/^[+-]?[\d ]*\d\/\d+$/.test(t)) return `${t} in`;
  return NUMBER.test(t) ? `${t} ${unit}` : t;
}
