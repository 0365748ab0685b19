"""Papers over many doors: the plan of a schedule, the lists and reports of a site, the summary of a round."""
