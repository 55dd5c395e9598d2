"""The only room that talks to a database. Functions take a session; `read()` and `write()` open one.

`base`: sessions; `opening`: a site's database; `models`: tables; `people`, `units`, `packets`, `entries`, `states`,
`photos`, `sign_ins`: what is asked and kept.
"""
