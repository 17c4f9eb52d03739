"""Things to cut out and papers to work on, at true size in mm: blocks, cards, scales, clocks, money, mats.

Each function gives one piece as `Art`: its inside as SVG and its exact width and height. A piece fills its box to the
edge, because the edge is where the scissors go.
"""
