"""Two-stage guillotine layout of rectangles from sheets, boards and offcuts: lanes are ripped, then crosscut.

`edgewright.cutlist.guillotine.plan.plan_guillotine` makes the plan, `edgewright.cutlist.check_guillotine` checks it.
"""
