"""Documents to hand over: the record of a job, the full-size template, the plan of a site.

A paper is plain data (`paper.py`): sections of the first page and sections of the detail, each made of a few kinds of
block. Three renderers know every block and nothing of a job: `paper_text.py` (lines), `paper_html.py` with `paper.css`
(one file, no script) and `paper_pdf.py` (with `scene_pdf.py` for drawings and `pdf_letters.py` for its letters). A part
that has sections, of a job, a door or a site, makes a `Paper` of them and gives it to these.

The record of a job: `record.py` is its data, which `record_schema.py` describes and `record.schema.json` publishes;
`record_paper.py` makes the paper; `record_forms.py` lists the five forms. Parts of the data, each with its lines:
`answers.py` (how each was taken, what was changed), `call_back.py` (closer, as found and left, tests and turns, what
remains), `rules.py`, `holes.py`, `inspection.py`, `swings.py`, `heard.py`, `photos.py`, `addenda.py`, `times.py`.

`papers_folder.py` puts the papers of a job where the person finds them. `template*.py` is the full-size template,
`plan.py` and `plan_pdf.py` the plan of a site.
"""
