"""The cut list: strips from this job's own offcuts, saw cuts, certificates, the independent checker, the take-off.

``edgewright.cutlist.plan.plan`` does the whole job. The words are explained in ``edgewright.cutlist.model``.
"""
