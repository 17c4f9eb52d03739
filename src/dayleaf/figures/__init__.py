"""Pictures as SVG in millimetres, the same on paper and on the web.

`draw.draw(figure, *, title, desc, words) -> Drawing(svg, width, height)`; `params.PARAMS` is the table of
every kind with its parameters. `words` maps the codes inside a picture to words of the page's language
(from `wording.pictures.figure_texts`).
"""
