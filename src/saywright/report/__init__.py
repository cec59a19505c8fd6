"""record + judgements + pictures → document → HTML, PDF, tables, exports.

In: a record that was judged, its sheet, its events, and the pictures as bytes. Out: text or bytes.
`document` builds one tree in which every number carries the item and the event it came from; the
other modules only set that tree. Nothing here judges, and nothing here reads or writes the store.
"""
