"""Column generation for strips that may be spliced: components of lanes and sides, priced against integer duals.

``pool`` states the problem by kinds, ``pricing`` finds the components that would pay under given duals,
``relaxation`` solves the linear program over them and hands out duals that prove a bound in whole numbers.
"""
