// Every word of the work screens, in one place. Tone: a good foreman, short, second person, what to do before why.
// {name} is replaced; "one step|{n} steps" takes the first form when n is 1.
import { speaker } from "./speak.js";

const WORDS = {
  // states
  "is.inside": "inside", "is.outside": "outside", "is.far": "far from the plan, kept as typed", "is.too close to call": "too close to call", "is.not read": "not read", "is.not known": "not known",
  "is.not released": "hold point", "is.stated": "stated", "is.confirmed": "confirmed", "is.complete": "complete", "is.waiting": "waiting for {n}",
  "is.stale": "stale", "is.on this phone": "on this phone", "is.sending": "sending", "is.sent": "sent", "is.refused": "refused",
  "is.quarantined": "in quarantine", "is.two stand": "two accounts", "is.done": "done", "is.open": "open", "is.passed": "passed with a concession",
  "is.shut": "hold point", "is.ready": "ready",
  // general
  "and": "{a} and {b}", "back": "Back", "step_of": "{stage}, step {n} of {of}", "touch": "touch to read", "touch_if": "touch to read, if you can", "touch_write": "touch to write",
  "saved": "saved {time}", "by_at": "{who}, {time}",
  "at_most": "at most {x}", "at_least": "at least {x}", "from_to": "{a} to {b}", "reversed": "level reversed", "not_turned": "not turned",
  "optional": "if you can", "n_readings": "one reading|{n} readings", "no_readings": "nothing read yet", "history": "History", "not_in_plan": "This unit's plan has nothing under that address.", "no_packet": "This unit's plan is not on this phone. It comes with the next signal.",
  "units": "Units", "phone": "Phone", "unit": "Unit {n}", "all_stages": "All stages", "all_steps": "All steps", "other_unit": "Other unit", "open_other": "Open another unit", "step_before": "Step before",
  // directions
  "way.top_left": "top left", "way.top_right": "top right", "way.top_in": "top in", "way.top_out": "top out", "way.left_high": "left high", "way.right_high": "right high",
  "way.string_left": "left string", "way.string_right": "right string", "way.lower": "lower", "way.higher": "higher", "way.left": "left", "way.right": "right",
  "way.left_out": "left out", "way.right_out": "right out", "way.narrow": "narrow", "way.wide": "wide", "which_way": "Which way? {a} or {b}",
  // unit and stage
  "stages_done": "One stage done|{n} stages done", "steps": "one step|{n} steps", "step_n_of": "Step {n} of {of}, {say}",
  "go_on": "Go on: {say}", "sign": "Sign", "sign_row": "Your signature", "all_done": "All steps done. Sign.", "shut_here": "Stop. A second person looks first.",
  "to_hold": "Second look: {say}", "new_plan": "New plan since {time}: {changed}.", "take_plan": "Take it now", "take_after": "Take it after this step.",
  "at_step": "at step {n}", "no_unit": "Not on this phone", "no_unit_say": "This unit is not on this phone. It comes with the next signal; open another.", "look_sign": "Look, then sign", "work_out": "Work out places, cuts, fixings", "wants_signal": "Wants a signal: pages of the office", "nothing_new": "Nothing new since it was returned.", "see_return": "See why it was returned", "where_again": "Where to read again", "choose_where": "Choose where to read again", "other_row": "Row {row}, but the answer is row {told}", "signed": "Signed by {who}", "returned": "Returned: {why}", "accepted": "Accepted by {who}", "hinges_left": "Hinges left", "hinges_right": "Hinges right",
  "re_check": "After a move or lift", "stage_open": "{n} of {of} done",
  // step
  "read": "Read {say}", "write": "Write {say}", "tick_next": "Answer: {say}", "choose_next": "Choose: {say}", "tick_long": "Answer the next line", "choose_long": "Choose from the next list", "read_long": "Read what comes next", "write_long": "Write what comes next", "next_step": "Next step", "next_stage": "Next: {say}",
  "done": "Done", "not_done": "Not done", "second_look": "Get the second look", "see_answer": "See the answer", "read_frame": "Read the frame", "see_moves": "See the move|See the {n} moves",
  "ask_concession": "Ask for a concession", "outside_say": "{x}, allowed {y}. Recorded. {then}", "outside_recorded": "{x}. Recorded. {then}", "outside_line": "{say}: {x}, allowed {y}", "then_moves": "Do the moves, or ask for a concession.", "then_ask": "Put it right, or ask for a concession.", "then_right": "Put it right.", "then_passed": "The office lets it stand, as it says above.", "by_concession": "{say}, by a concession", "asked": "Concession asked: {why}", "conceded": "Concession: {why}", "wrong_title": "If it is wrong", "note": "Add a note",
  "measure_again": "Measure again", "keep_this": "Keep this one", "two_stand": "Two accounts. Both stand until one of you settles it.", "from_source": "Limit: {origin}",
  "origin.M": "maker's sheet", "origin.F": "handbook", "origin.D": "default, common practice", "origin.L": "local rule", "why_not": "Why not?", "why_not_say": "Why is this not done: {say}",
  "box_offer": "As read for unit {unit} at {time}: {value}. Still so?", "still_so": "Still so", "shut_step": "This step waits for the second look before it.",
  "settle_first": "Settle the two accounts first",
  "answer_of": "Answer: {say}", "office_refused": "{value}. The office did not take this: {why}. It stays here; correct it.",
  // number
  "keep_next": "Keep it. Next: {say}", "keep_long": "Keep it, then the next", "keep_done": "Keep it", "keep_turn": "Turn it and read again", "keep_one": "Keep it, not turned", "not_read": "Not read", "rub": "rub out", "ft": "ft", "and_key": "and",
  "plan": "plan {x}", "echo": "= {x}", "then_den": "then □/2 to □/32", "den_missing": "{x} what? □/2 to □/32", "whole_and": "{a} and {b}", "as_lies": "as it lies", "as_lay_turned": "as it lies {x}; turned:", "level_len": "level {x}", "level_title": "Length of your level",
  "whole_side": "whole side", "over": "over {x}", "over_title": "Read over what length?", "stands_x": "stands {x}", "stand_n": "{n} stand. Keep one, or read again:", "keep_this_x": "Keep {x}", "keep_level": "Keep the length", "as_typed": "{x}, as typed", "neither": "Neither", "did_you_mean": "Far from the plan, {x}. Which is it?", "did_you_mean_bare": "Which is it?", "far_for_offset": "Far for an offset. Which is it?", "above_range": "Above {x}. Which is it?", "below_range": "Below {x}. Which is it?", "out_of_range": "Not between {a} and {b}. Which is it?", "no_sign_here": "No minus belongs here. Which is it?",
  "nothing": "Type the figure first.", "why_not_read": "Why can it not be read?", "binds": "The leaf binds", "no_access": "No access", "no_tool": "The tool is not here",
  "other_why": "Something else", "number_what": "A number, please: digits and one point.", "keep_text": "Keep it",
  "all_fields": "Back to step", "which_way_short": "Which way?", "far_short": "far from the plan", "ask_back": "Which: {list}?", "not_drafted": "Not kept yet: the phone's store does not answer. Keep it soon.",
  "the_other": "the other", "the_answer": "the answer", "the_step": "the step", "level_bad": "A level of {a} to {b}, please.",
  "date_what": "A date, please: 2026-11-25, or year and month, 2027-09.", "date_how": "2026-11-25, or year and month as printed: 2027-09", "today": "Today", "nothing_written": "Write it first.", "not_done_note": "Not done, {say}: {why}",
  "not_read_note": "Not read, {say}: {why}", "taken_with": "The figure that stands is taken back with it.", "needed_ask": "The step needs it: with the reason a concession is asked for.", "needed_never": "The step needs it and takes no concession: it stays open until it is read.",
  "never_conceded": "For this step there is no concession. Put it right, or stop and ring the supervisor.", "moves_done": "Moves made. Read again.", "reading_title": "What to read now", 
  "mark.plumb": "plumb", "mark.lean": "lean", "mark.level": "level", "mark.string": "string",
  // frame
  "frame": "Frame", "round": "round {n}", "frame_line": "{say}, round {round}, {readings}", "start_diagonals": "Start with both diagonals.",
  "tilt_along": "Box {x} over the sill: taken into account.", "tilt_through": "Box {x} over the height: taken into account.", "not_level": "The box is out of level by {x} over the door: a true frame stands out of plumb with it, and the leaf will swing by itself.", "leave": "Leave it alone.", "moves_then": "One move, then read|{many} moves, then read", "need_more": "One more reading: {say}", "doubt_first": "A figure does not fit the others. Measure again: {say}|{n} figures do not fit the others. Measure again: {say}",
  "settled": "No move would help.", "either": "Could be either. One more reading settles it: {say}", "frame_again": "Read the frame again", "drawn": "drawn ×{n}", "set_aside": "Set aside", "set_aside_say": "{say} {value}: does not fit the others by {off}. {likely}",
  "cause.other": "Measure it again.", "use_it": "It is right: use it", "after_moves": "After the moves", "should_read": "Should then read", "move_made": "Move {n} is made", "read_again": "Read again", "stop_here": "Stop here: second look",
  "cannot": "Cannot do", "cannot_title": "Why can it not be done?", "no_room": "No room {place}", "is_fixed": "{corner} is already fixed", "will_not": "It will not move", "will_not_note": "Will not move: {say}",
  "trim_first": "Trim {x} at {place} first.", "unfix_first": "Take out the rivet {corner} first.", "why": "Why", "built": "As built", "made": "made", "moves_of": "moves {n} of {of}", "all_readings": "Read more",
  "in_round": "Read in this round", "last_round": "last {x}", "reading": "Reading", "see_frame": "See the answer", "so_far": "So far", "split": "Two rounds were begun without sight of each other. Read again.",
  "place.left_bottom": "bottom left", "place.right_bottom": "bottom right", "place.left_top": "left top", "place.right_top": "right top", "place.head_left": "head left", "place.head_right": "head right",
  "place.strip_left": "strip left", "place.strip_right": "strip right", "place.left_mid": "left middle", "place.right_mid": "right middle",
  "corner.bl": "bottom left", "corner.br": "bottom right", "corner.tl": "top left", "corner.tr": "top right",
  "group.square": "square", "group.plumb": "plumb", "what.square_head": "head", "what.square_sill": "sill", "what.plumb_left": "left jamb", "what.plumb_right": "right jamb", "what.twist": "twist", "what.lean": "lean",
  "what.align_mid": "width at mid height",
  "plan_picture": "Seen from outside: planned frame dashed, frame as read drawn {n} times its faults.", "after_picture": "Thin: the frame after the moves.", "after_line": "after",
  // why
  "why_title": "Why this answer", "rounds_title": "Round by round", "told_x": "Told: {x}.", "made_x": "Made: {x}.", "no_moves": "nothing", "why_row": "{x}, allowed {y}", "used": "Readings used", "aside": "Readings set aside", "sheet_of": "Sheet {name}, {hash}", "limits_from": "Limits: {source}", "to_moves": "Back to the moves", "to_answer": "Back to the answer",
  "doubt": "{x} ±\u00A0{u}, 19 times in 20", "doubt_in": "{x} ±\u00A0{u} ({mm} ±\u00A0{umm}), 19 times in 20", "inside_in": "inside {n} times in 100", "bar": "The bar and the ± are where it lies 19 times in 20. Called inside from 97.5 times in 100, outside up to 2.5, too close to call between.", "not_used": "Not used", "nothing_used": "Nothing read yet.", "use_say": "Measure {say} again. Two that agree are used.",
  // sheets
  "use_row": "Use row {row}", "row_told": "the answer", "sheet_done": "Done", "needs_input": "First: {say}", "inputs": "Rests on",
  "sheet.frame": "Frame", "sheet.frame_built": "Frame as built", "sheet.frame_recheck": "Frame, read again", "sheet.container": "Container number", "sheet.wheel": "Disc on this tool", "sheet.rivet_sides": "Rivets at the sides",
  "sheet.rivet_head": "Rivets at the head", "sheet.seal": "Head seal", "sheet.opening": "Opening", "sheet.flats": "Flats", "sheet.toe": "Toe of the jambs", "sheet.stance": "Stance of the box",
  // hold
  "hold_title": "Second look", "look_at": "What she looks at herself", "she_looked": "She looked: {who}", "i_looked": "I looked", "nobody": "Nobody is her own second. Ask the office; work waits.",
  "is_stated": "{who} looked", "hold_first": "Not yet: {list}", "pick_who": "Say who looked", "hold_sha": "Released for what stands now. A change shuts it again.", "confirm_say": "{who} says that you looked. Say so yourself only if you did.",
  "hold_open": "The way on is open.", "seven_lines": "The frame, as it stands",
  "step_key": "Back to step", "back_step": "Back to the step", "who_looked": "Who looked?", "unit_back": "Back to the unit", "sign_stale": "What stands now is no longer what was signed. Look, then sign again.",
  // sign
  "sign_title": "What you sign", "sign_say": "I, {who}, sign this entry|I, {who}, sign these {n} entries", "sign_n": "Sign one entry|Sign {n} entries", "sign_yes": "Yes, sign", "sign_no": "Not yet", "sign_counts": "{n} entries, {hold} hold points, {outside} to look at",
  "sign_blocked": "Before you can sign", "b.missing": "{say}: not read", "b.not_known": "{say}: not known", "b.pair": "{say}: two accounts", "b.split": "{say}: rounds split", "b.shut": "{say}: second look", "b.outside": "{say}: outside, no concession here",
  "sign_first": "First: {say}", "sign_first_long": "Go to what is missing", "look_these": "Look at these", "sign_again": "Changed after signing: {list}. Look, then sign again.",
  "sign_is": "Your sign-off", "nothing_odd": "Nothing is outside, nothing too close, nothing only stated.", "sign_sure": "Signing is your word. Look once more.",
  // notes, history, asks
  "note_title": "Note", "note_keep": "Keep the note", "note_what": "What should others know?", "ask_title": "Ask for a concession", "ask_why": "Why should it stay as it is?", "ask_keep": "Ask the office", "say_why": "Say why first.",
  "history_title": "History", "take_back": "Take back", "taken_back": "taken back at once", "taken_later": "taken back", "replaced": "replaced", "stands": "stands", "retracted": "taken back",
};

export { pseudo } from "./speak.js";

export const say = speaker(WORDS);

/** Whether there are words for `key`. */
export const known = (key) => key in WORDS;
