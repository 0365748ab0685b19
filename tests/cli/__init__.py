"""The verbs: what they print, where, and their exit statuses."""
