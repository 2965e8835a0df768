"""A web page that is read or printed and does nothing: no script runs in it, and nothing is fetched.

Only this file writes the frame of such a page, and what it forbids.
"""

from __future__ import annotations

from html import escape


def web_page(title: str, style: str, body: str, images: str = "") -> str:
    """The whole page.

    Parameters
    ----------
    title : str
        As plain text; it is escaped here.
    style, body : str
        CSS and HTML, ready.
    images : str
        Where pictures may come from, as the policy says it: ``data:`` or ``'self' file:``; nowhere unless given.

    Examples
    --------
    >>> print(web_page("1 < 2", "", "<p>It is.</p>").split("<title>")[1].split("</title>")[0])
    1 &lt; 2
    """
    pictures = f" img-src {images};" if images else ""
    return f"""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline';{pictures} \
base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{escape(title)}</title>
<style>{style}</style>
</head>
<body>
<main>
{body}</main>
</body>
</html>
"""
