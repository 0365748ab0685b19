"""Documents to hand over: the record of a job, the full-size template, the papers of a site.

A paper is plain data (`rendering/paper.py`): sections of the first page and sections of the detail, each made of a few
kinds of block. Three renderers know every block and nothing of a job: `rendering/paper_text.py` (lines),
`paper_html.py` with `paper.css` (one file, no script) and `paper_pdf.py` (with `scene_pdf.py` for drawings and
`pdf_letters.py` for its letters). A part that has sections, of a job, a door or a site, makes a `Paper` of them.

`record/`: `record.py` is the data of a job's record, which `record_schema.py` describes and `record.schema.json`
publishes; `record_paper.py` makes the paper; `record_forms.py` lists the five forms. Parts of the data, each with its
lines: `answers.py` (how each was taken, what was changed), `call_back.py` (closer, as found and left, tests and turns,
what remains), `rules.py`, `holes.py`, `inspection.py`, `swings.py`, `heard.py`, `photos.py`, `addenda.py`, `times.py`.

`site/` has the plan of a schedule, the lists and reports of a site and the summary of a round; `template/` the
full-size template. `papers_folder.py` puts the papers of a job where the person finds them.
"""
