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
    The wood glued flush under the rim, one or more layers; ``T`` = T0 + layers x strip thickness is what one sees.
outline
    The closed loop of lines and arcs of the top seen from above.
shape
    An outline set up from what was measured, each edge with a name (`edgewright.design.shapes`).
region
    An outline with the holes in it; wood lies to the left of every loop.
level
    The outline moved inwards by a distance d (inner parallel); the edge profile is followed level by level.
front
    One loop on its way inwards: its segments that still live, and the corners between them.
still edge
    A segment that gets no profile and so does not move.
form
    What a bit gives one arris, as a chain of lines and arcs in (inset, depth): round-over, chamfer, bevel, cove, ogee.
round-over
    A quarter circle routed on the arris; its radius is measured in the section of the edge.
profile
    The forms of both arrises and the flat between them.
flat
    The vertical part of the edge between the two forms, where the router's bearing runs.
pocket, uncut tip
    An inside corner into which the bearing does not roll; the wood that it leaves standing there.
blank, segment
    A piece of a ring as sawn, straight; one under a curve, of which there are many.
ring width
    What a ring must be wide everywhere after it is trimmed flush.
overhang
    From the edge of the top to the face of the base or apron beneath it.
"""
