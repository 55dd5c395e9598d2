"""Models, queries, migrations. The only room that talks to a database."""
