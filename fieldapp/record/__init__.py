"""What an entry is, the fold from a set of entries to a unit's state, and what a sign-off covers. Pure.

`fold.gather` and `fold.result` are the door; the twin on the phone is static/phone/fold.js, and both read the
cases in tests/twins/fold*.json.
"""
