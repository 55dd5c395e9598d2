"""Pure calculations, one module a subject. No server, no database, no clock, no files."""
