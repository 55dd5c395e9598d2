"""The Flask application and its blueprints."""
