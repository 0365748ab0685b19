"""Documents to hand over: the record of a job, and the full-size template."""
