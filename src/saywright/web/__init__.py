"""Bench → pages: the review desk, on loopback only.

In: HTTP requests from a browser on this machine. Out: pages, clips, pictures, reports.
May live here: routes, forms, what a page shows, guards against other sites and hosts.
May not: anything that decides about the record; that is `Bench`.
"""
