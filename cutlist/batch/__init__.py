"""Many jobs planned together over shared wood.

``jobs`` reads the jobs and says what sides they have, ``wood`` which boards they share, ``ways`` how each stick may be
ripped; ``problem`` states all that by kinds, ``layout`` solves it and lays the pieces out, ``job_plans`` gives each job
its own plan, and ``batch`` puts them together and has the whole checked.
"""
