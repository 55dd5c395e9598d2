"""What an entry is, and the fold from a set of entries to the state of a unit. Pure."""
