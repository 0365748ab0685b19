"""Many openings: door schedules, and what they say of each door before anybody climbs a ladder."""
