"""Pictures as SVG in millimetres, the same on paper and on the web."""
