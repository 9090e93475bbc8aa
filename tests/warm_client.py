"""Call a copy of the process that `warm.py` keeps at an address: `python warm_client.py ADDRESS argument …`.

It is started as often as hornbook is, so it imports next to nothing.
"""

import json
import os
import socket
import sys

with socket.socket(socket.AF_UNIX, socket.SOCK_SEQPACKET) as connection:
    connection.connect(sys.argv[1])
    call = {"arguments": sys.argv[2:], "folder": os.getcwd(), "environment": dict(os.environ)}
    socket.send_fds(connection, [json.dumps(call).encode()], [0, 1, 2])
    status = int(connection.recv(16) or 1)
if status < 0:  # it was ended by a signal
    os.kill(os.getpid(), -status)
sys.exit(status)
