"""The page ``accounts.md``: how a shared server is kept, and who may what, as the code has it.

In:    the tables of ``becket.web.roles``; the words of the page.
Out:   one page.
Never: a right that is not in a table.
"""

from __future__ import annotations

from becket.web import invitations, passwords, tries
from becket.web.roles import ACTIONS, ADDRESSES, CARRIES, EVENTS, ROLES, may

HEAD = """# More than one crane, more than one person

The tables are made from the code by `make docs`. A test tries every address and every kind of event with every role
and as a stranger.

```text
becket serve --data DIR --shared
```

Without `--shared` nothing of this page is there: a link opens the phone, as [serve](serve.md) says. With it the same
folder is entered by name and password. Links open nothing then, and phones that a link opened are not known. The
accounts lie in `accounts.sqlite` beside the records, readable for the user of the server alone. Losing it costs the
accounts and no record. For a copy of it stop the server for a moment and copy the file; the records have a command of
their own that copies them while the server runs: `becket record backup`, see [records](records.md).

## The first administrator

The first start prints an invitation. It is good once, for {days} days, and makes the account `administrator`. The
administrator invites the others under Pages, Accounts: name, role, cranes. Each invitation is a link and a code, shown
once. Who opens it chooses a password. Nobody else learns it.

`becket serve --shared --invite-administrator` prints such a link again, for a forgotten password or when nobody is
left who keeps accounts. While the server runs give it the same `--data`, `--port` and `--host-name`: the link is for
the server that runs, and no second one is started. Whoever can start the server can do this: that person has the
records in hand anyway.

## Roles

{roles}

An account is not the person. One phone brings what the operator and the rigger entered, each with own name and four
digits: the account says who may bring it. So an account also says as whom its entries may be made:

{carries}

- An account has every crane, or those that it was given. A crane that is not among them is answered like one that does
  not exist, in every address, entry and file.
- Nobody who keeps accounts enters at the crane's steps, and nobody who enters there ends a lock-out. But who keeps
  accounts can make one more and use it: the list *What was changed* on the page Accounts shows it, and the record has
  the device of each entry.
- Persons on the crew list are the firm's, not a crane's. A supervisor's account puts them on it, inspectors too; each
  chooses the four digits there with own hands.
- A setting of the method binds every crane: an account changes it only with the role for it and with every crane. How
  pages look is each phone's own.

## What each may do

{actions}

## Which address needs what

A stranger gets in where it says `anybody`. `nobody`: not done on a shared server.

{addresses}

## Which entry needs what

Each entry of a delivery is looked at by itself. One that the account may not bring is refused with the reason; it
stays on the phone under Kept, and holds up no other. Sent again by an account that may, it is taken.

{events}

## Passwords

- {shortest} letters or more, at most {longest}, no other rule. Not taken: the own name, one of a handful of words with
  figures behind it, rows of the keyboard or of figures, also one behind the other, fewer than
  {unlike} different letters.
- Kept is argon2id with {memory} MiB, {times} rounds, {lanes} lanes; with other parameters it is hashed anew at the next
  sign-in. {at_once} are hashed at once; {waiting} more wait, who comes then is told to come again.
- A name that is not there has the same answer, after the same work, as a wrong password.
- After {name} wrong passwords for a name the next is looked at in {first} s, then twice as long each time, up to
  {longest_wait} s. A right password inside that time is refused too. After {address} wrong ones from one address the
  same goes for the address, whatever the names; wrong invitations count there. Waits are in the file: a new start
  forgets none. What a name did wrong is forgotten a day after the last wrong one, an address an hour after.
- Somebody who types wrong passwords for a name on purpose keeps that name waiting. Phones that are signed in go on.

## Phones

A phone stays signed in for 90 days. The page My account lists the phones of the account, signs out one or all, and
changes the password, which signs out every other phone. A renewed invitation signs all of them out when it is used.
An account that is switched off is out at once, and another role or other cranes count from the next request on.

Without signal a phone goes on with what it keeps, whoever is signed in. When it is signed out it keeps every entry and
every kept page; the strap says Sign in, and the sign-in leads back to where one was. Signing out deletes nothing: what
was not sent is sent when somebody signs in on that phone whose account may bring it. So a phone that is given away is
emptied by its owner: the browser's own *delete data of this site*, after the strap said that all is sent. Until then
pages that it kept of a crane can be read there without signal, those of a crane that was taken away too.

The cookie is `HttpOnly`, `SameSite=Strict`, and `Secure` where the page came by https. A write is taken only from a
page of this server, the sign-in included. TLS is the work of a proxy: [proxy](proxy.md).
"""


def pages() -> dict[str, str]:
    """Return the page with its text [-]."""
    shown = {
        "days": invitations.DAYS,
        "roles": _table(("role", "may"), [(role, ", ".join(ROLES[role])) for role in ROLES]),
        "carries": _table(("account", "entries made as"), [(role, ", ".join(CARRIES[role]) or "-") for role in ROLES]),
        "actions": _table(("", "what", *ROLES), [(f"`{one}`", what, *_marks(one)) for one, what in ACTIONS.items()]),
        "addresses": _table(("address", "needs"), [(f"`{way} {path}`", f"`{one}`") for (way, path), one in _by_path()]),
        "events": _table(
            ("entry", "needs", *ROLES), [(f"`{kind}`", f"`{one}`", *_marks(one)) for kind, one in EVENTS.items()]
        ),
        "shortest": passwords.SHORTEST,
        "longest": passwords.LONGEST,
        "unlike": passwords.LEAST_UNLIKE,
        "memory": passwords.MEMORY // 1024,
        "times": passwords.TIMES,
        "lanes": passwords.LANES,
        "at_once": passwords.AT_ONCE,
        "waiting": passwords.WAITING,
        "name": tries.FREE["name"],
        "address": tries.FREE["address"],
        "first": tries.FIRST,
        "longest_wait": tries.LONGEST,
    }
    return {"accounts.md": HEAD.format(**shown)}


def _by_path() -> list[tuple[tuple[str, str], str]]:
    return sorted(ADDRESSES.items(), key=lambda row: (row[0][1], row[0][0]))


def _marks(action: str) -> list[str]:
    return ["yes" if may(role, action) else "" for role in ROLES]


def _table(head: tuple[str, ...], rows: list[tuple[str, ...]]) -> str:
    lines = [head, tuple("---" for _ in head), *rows]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)
