"""A site on disk: made, loaded from a file, seeded for the demo, served."""
