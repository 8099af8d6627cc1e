"""The only folder that imports MkDocs: hooks, options, and the fast path of pages."""
