"""The plan of a site: for every door of its schedule what goes on it, what is still open, and what to take along.

Nothing is decided here that the trade's computations or the procedure decide. `way` follows the procedure as far as a
schedule's facts lead, on every way that the rest leaves open; `fitting` asks the computations; `door_plan` puts one
door together, and `site_plan` all of them.
"""
