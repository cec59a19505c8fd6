"""Stages → one job: how `Bench` carries data from one stage to the next.

Comes in: what a face asks for. Goes out: events in the store, and what the stages make of them.
May live here: the order of the stages, retries, what is kept first. May not: any rule of a stage.
"""
