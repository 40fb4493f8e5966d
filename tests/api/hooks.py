"""How a program that only reads the hub's description joins a shop and signs in: for schemathesis, which calls this.

The signature is another library's than the hub's. Where requests are to go without a session, schemathesis leaves it out.
"""

import base64
import json
import os
import urllib.request

import schemathesis
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

MEMBER = "noor"


def base64url(data):
    return base64.urlsafe_b64encode(data).rstrip(b"=").decode()


def session():
    """The cookie of a phone that joins the demo shop."""
    address, code = os.environ["SWEEPBELL_ADDRESS"], os.environ["SWEEPBELL_JOIN_CODE"]
    key = Ed25519PrivateKey.generate()
    public = key.public_key().public_bytes(serialization.Encoding.Raw, serialization.PublicFormat.Raw)
    signature = base64url(key.sign(f"sweepbell join v1\n{code}\n{MEMBER}".encode()))
    body = {"code": code, "member": MEMBER, "dev": base64url(public), "signature": signature}
    request = urllib.request.Request(f"{address}/api/join", json.dumps(body).encode(), {"content-type": "application/json"})
    with urllib.request.urlopen(request) as answer:
        name, _, token = answer.headers["set-cookie"].split(";")[0].partition("=")
        return {name: token}


# Before anything is tried: afterwards this address has typed too many wrong codes to join.
SESSION = session()


@schemathesis.auth(refresh_interval=None)
class Joined:
    def get(self, case, context):
        return SESSION

    def set(self, case, data, context):
        case.cookies = {**(case.cookies or {}), **data}
