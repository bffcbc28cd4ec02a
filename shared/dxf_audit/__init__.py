"""Audit of a DXF file from its text alone: what a saw or router must never be given.

Its reader shares no code with the writer of our own drawings, so that a fault of either shows.

loop
    A closed line of straight edges and arcs, drawn as one entity or chained from several.
saw line
    A straight open line on a layer that holds nothing else: a keep line.
check figures
    Counts, length and area of a layer, written on the reference layer of our own files.
"""
