"""The one registry of calculators: function, schemas, worked example, sources."""
