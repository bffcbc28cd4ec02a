"""Geometry of the top: what it is, what is cut off, the ring of strips, the routed edge.

Words of the trade and what they are here
-----------------------------------------
top
    The sheet of wood as measured; ``T0`` is its calipered thickness.
trim
    What is cut off a side. A cut has a keep line and a kerf band on the waste side.
offcut
    What a trim leaves: amount less one kerf wide.
ring
    The strips glued flush under the rim, one or more layers; ``T`` = T0 + layers x strip thickness is what one sees.
outline
    The closed loop of lines and arcs of the top seen from above.
shape
    An outline set up from what was measured, each edge with a name (`edgewright.design.shapes`).
level
    The outline moved inwards by a distance d (inner parallel); the edge profile is followed level by level.
round-over
    A quarter circle routed on the arris; its radius is measured in the section of the edge.
flat
    The vertical part of the edge between the two round-overs, where the router's bearing runs.
overhang
    From the edge of the top to the face of the base or apron beneath it.
"""
