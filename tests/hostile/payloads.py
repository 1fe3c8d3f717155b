"""Texts that do harm where a page, a picture, a spreadsheet or a typesetter takes them for code. Each calls canary() where it is run."""

from __future__ import annotations

# Longest last; each fits somewhere, and the shortest fit everywhere.
PAYLOADS = (
    "<b canary>x</b>",
    "{{7*7}}{% x %}",
    "\U0001f331 'é' \"=1\"",  # beyond the first plane: some writers split such letters in two
    "`x` *y* __z__",
    "&lt;i&gt;x&amp;",
    '"><p canary="x">',
    "</title><p canary>",
    "#eval(\"1+1\") #lorem",
    "${canary()} \\u003c",
    "' onload='canary()",
    "<canary-x>&#60;b&#62;",
    "[x](javascript:canary())",
    "<svg onload=canary()>",
    "]]><script>canary()</script>",
    "--><script>canary()</script>",
    '"><img src=x onerror=canary()>',
    "</script><script>canary()</script>",
    "&lt;/title&gt;&lt;script&gt;canary()",
    "<a href='javascript:canary()'>x</a> {{config}}",
    "</textarea></style><img src=x onerror=canary()>",
    "<!-- /summary --><img src=x onerror=canary()> [[definitions]]",
    "javascript:canary()//<svg><animate onbegin=canary() attributeName=x>",
    "x\\\"-canary()-\\\" '-canary()-' {% raw %}{{ ''.__class__ }}{% endraw %} <!--canary-->",
)


def payload(number: int, longest: int, without: str = "") -> str:
    """One of the texts that has at most `longest` letters and none of the letters `without`; other numbers give other texts."""
    fitting = [text for text in PAYLOADS if len(text) <= longest and not set(text) & set(without)]
    return fitting[number % len(fitting)]
