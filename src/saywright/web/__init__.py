"""Bench → pages: the review desk and the board, on this machine, or on the network where people sign in.

In: HTTP requests from browsers. Out: pages, clips, pictures, reports.
May live here: routes, forms, what a page shows, guards against other sites and hosts.
May not: anything that decides about the record; that is `Bench`.
"""
