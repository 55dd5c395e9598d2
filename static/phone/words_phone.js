// The words of the engine: the frame's row A, what the store and the signal say, and the screens round the work.
import { speaker } from "./speak.js";

export const say = speaker({
  // row A and alerts
  "saved": "saved {time}", "unsent": "{n} on this phone", "sending": "sending {n}", "all_sent": "sent, all on the server", "all_sent_short": "all sent", "nothing": "nothing kept yet",
  "refused_n": "refused: {n}", "not_saved": "NOT SAVED", "not_saved_why": "NOT SAVED: {why}.", "more": "more", "more_n": "{n} more", "newer": "newer version here",
  "no_signal": "no signal", "since": "since {time}", "no_signal_yet": "no signal yet", "not_ours": "network wants something first", "sign_in_again": "sign in again to send", 
  "fault_title": "We failed, not you", "fault_say": "Nothing is lost that was saved. Go back and try again. ({why})", "try_again": "Try again",
  "nowhere_title": "Nothing here", "nowhere": "Nothing here under that address. Open a unit.", "to_units": "Units on this phone",
  "store_title": "The store does not answer", "store_silent": "The phone's store does not answer. Nothing is lost that was saved. Try again.",
  "store_failed_open": "The phone's store failed. Nothing is lost that was saved. Load this page again.", "store_held": "Another window of this phone holds the old store. Close it.", "store_updated": "Updated in another window. Load this page again.",
  "full": "this phone is full. The figure is still here. Make room, then Keep it again", "store_failed": "the phone's store failed. The figure is still here. Load the page again",
  "other_now": "another person is signed in now. The figure is still here",
  "units": "Units", "phone": "Phone", "back": "Back", "done": "Done", "settings": "Set-up", "other_unit": "Other unit",
  // sign in, sign out
  "in_title": "Sign in", "in_once": "Once, where there is signal. From then on this phone works without.", "in_again_title": "Sign in again", "name": "Name", "password": "Password", "show_password": "Show the password", "in_do": "Sign in", "in_why": "{who}: the office has ended your sign-in. You can go on working; to send, sign in again.",
  "in_signal": "Signing in needs signal. What was kept here stays locked.", "in_portal": "This network wants something of you first. Signing in needs signal.",
  "in_wrong": "Name or password is not right.", "in_later": "The office does not answer now. Try again.", "in_missing": "Name and password, please.",
  "locked": "{who}: one entry locked here, not sent|{who}: {n} entries locked here, not sent", "out_title": "Sign out", "out_do": "Sign out {who}",
  "out_none": "All that you kept is on the server. It goes from this phone.", "out_some": "One entry is not sent.|{n} entries are not sent.",
  "out_stay": "They stay on this phone, locked, and are sent when you sign in here again. Nobody else can send or read them.", "send_first": "Send first", "leave_locked": "Leave them locked here",
  // open a unit
  "open_title": "Open a unit", "open_do": "Open {code}", "code": "Code on the label, as {example}", "code_five": "Five characters, as {example}", "rub": "rub out", "clear": "clear", "type_code": "Type the code", "open_first": "Open {number}",
  "code_wrong": "That code does not add up: one character is off.", "not_carried": "This unit is not on this phone. It comes with the next signal; open another.",
  "code_touch": "touch to type", "letters": "{a} to {z}", "digits": "digits", "no_plan": "This unit's plan is not on this phone. It comes with the next signal.", "none": "No units here yet. Sign in where there is signal.", "on_phone": "Units on this phone", "on_phone_order": "Nearest work first: what you opened last, then what is not finished, then by number.", "at_stage": "at {stage}", "stages_over": "all stages done", "unit": "Unit {number}", "hinges_left": "hinges left", "hinges_right": "hinges right",
  "packet_missing": "its plan comes with the next signal", "unsent_here": "one entry not sent|{n} entries not sent", "as_code": "{short}",
  // is it this one
  "this_title": "Is it this one?", "this_is": "This is the one", "crew": "Crew", "unit_code": "Code",
  "this_why": "The label may sit on another box. Look at the hand, the wall and the container number.",
  // the phone
  "phone_title": "What is on this phone", "send_now": "Send now", "keep_open": "Keep this open until all is sent.", "you": "{who}, you", "signed_out": "{who}, signed out",
  "box_line": "{waiting} on this phone", "box_refused": "{refused} refused", "box_none": "nothing unsent", "last_signal": "Last signal", "never": "none yet", "next_try": "Next try",
  "s.no signal": "No signal. Work on, it stays on this phone.", "s.not ours": "This network wants something of you first. Work on, it stays on this phone.",
  "s.sign in": "Sign in again to send. You can go on working.", "s.later": "The office asked to wait a moment. Nothing is lost.", "s.other person": "Another person is signed in at the office's pages on this phone. Sign in again to send.",
  "s.too old": "This version is too old to send. Change over when there is signal; everything stays here.", "s.refused": "The office did not understand this phone. Nothing is lost; try again later.", "s.starting": "", "s.idle": "", "s.sending": "Sending.",
  "ready": "Ready without signal", "ready_is": "One unit, {whole} with plan and drawings.|{n} units, {whole} with plan and drawings.", "shell_kept": "The pages are kept, version {version}.", "shell_not": "The pages are not kept yet: stay in signal. Version {version}.",
   "kept_yes": "The browser keeps the store.", "kept_no": "The browser may clear the store when the phone is full. Send often.", "kept_unknown": "The browser has not said whether it keeps the store. Send often.",
  "insecure": "Offline work is OFF: this address is not secure (https needed).", "not_installed": "Not on the home screen: unsent work can be deleted after 7 days. Share, then Add to Home Screen.",
  "private": "In a private window everything is deleted when you close it.", "nearly_full": "This phone is nearly full: {free} MB free for this. Make room before more is kept.", "clock_off": "This phone's clock is off by {off}. Set it; what you keep is dated by it.",
  "newer_say": "A newer version is here. Change over when this step is done.", "change_over": "Change over", "refused_title": "Refused", "refused_say": "The office did not take this: {why} It stays here.", "correct": "Correct it", "tell_office": "Keep and tell the office",
  "refused_entry": "{unit}, {step}: {value}", "minutes": "one minute|{n} minutes", "hours": "one hour|{n} hours", "warnings": "Look at this",
  // settings
  "set_title": "Your settings", "set_show": "Lengths in", "set_theme": "Colours", "sun": "dark on white, for sun", "blueprint": "light on blue, for dark", "set_strip": "Strip of the number pad", "right": "right", "left": "left",
  "set_pad": "Numbers by", "own": "our keys", "phone_keys": "the phone's keyboard", "set_level": "Length of your level", "level_none": "not told yet: the next level reading asks", "level_side": "a plumb line over the whole side", "level_is": "{a}, {b}", "mm": "mm", "in": "in",
  "level_hint": "As \"600 mm\" or \"24 in\"; empty: you are asked.",
});
