"""``axlewright serve``: the workbench in a browser on this machine, or on the shop's network."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from axlewright.cli.faults import InputError

if TYPE_CHECKING:
    import socket

PORT = 8177
_HERE = "127.0.0.1"


def serve(
    port: Annotated[
        int, typer.Option("--port", help="Port to listen on; 0 takes a free one.", min=0, max=65535)
    ] = PORT,
    lan: Annotated[
        bool, typer.Option("--lan", help="Let others on the network in, with a passphrase.")
    ] = False,
    no_open: Annotated[bool, typer.Option("--no-open", help="Do not open a browser.")] = False,
    data: Annotated[
        Path | None, typer.Option("--data", help="Folder where builds are kept.", metavar="DIR")
    ] = None,
    launch_samples: Annotated[
        int,
        typer.Option(
            "--launch-samples",
            help="Launches marched of each case; fewer are quicker and say less.",
            min=100,
            max=100_000,
        ),
    ] = 10_000,
    gear_samples: Annotated[
        int,
        typer.Option(
            "--gear-samples",
            help="Samples of the gear study; fewer are quicker and say less.",
            min=2,
            max=1000,
        ),
    ] = 60,
) -> None:
    """Open the workbench in the browser. Stop it with Ctrl-C."""
    import threading
    import webbrowser

    import uvicorn

    from axlewright.store.builds import Store
    from axlewright.store.database import DATABASE, StoreError
    from axlewright.store.folder import data_folder
    from axlewright.web.app import create_app
    from axlewright.web.security import LOOPBACK
    from axlewright.web.words import new_passphrase
    from axlewright.workshop.shop import Workshop

    listening = _listen("0.0.0.0" if lan else _HERE, port)
    port = listening.getsockname()[1]
    folder = data if data is not None else data_folder()
    try:
        workshop = Workshop(Store(folder / DATABASE), launch_samples, gear_samples)
    except (StoreError, OSError) as e:
        listening.close()
        raise InputError(str(e)) from None
    passphrase = new_passphrase() if lan else ""
    names = (*LOOPBACK, *_names_on_network()) if lan else LOOPBACK
    app = create_app(workshop, lan=lan, passphrase=passphrase, hosts=names)
    address = f"http://{_HERE}:{port}/"
    typer.echo(f"The workbench is at {address}")
    typer.echo(f"Builds are kept in {folder}")
    if lan:
        _tell_network(names, port, passphrase)
    typer.echo("Stop it with Ctrl-C.")
    if not no_open:
        threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()
    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        timeout_keep_alive=30,
        timeout_graceful_shutdown=3,
    )
    try:
        uvicorn.Server(config).run(sockets=[listening])
    finally:
        workshop.close()


def _listen(host: str, port: int) -> socket.socket:
    """A socket that listens from now on: a browser may call before the server is ready."""
    import socket

    made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((host, port))
    except OSError as e:
        made.close()
        raise InputError(
            f"port {port} cannot be used ({e.strerror}); if the workbench is not running already,"
            f" choose another, like --port {PORT + 1}"
        ) from None
    made.listen(128)
    return made


def _names_on_network() -> tuple[str, ...]:
    """Addresses and names under which others reach this machine; asks nobody outside."""
    import ipaddress
    import socket

    name = socket.gethostname().lower()
    found: dict[str, None] = {}
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as way_out:
            way_out.connect(("192.0.2.1", 9))  # an address that is nobody's; nothing is sent
            found[way_out.getsockname()[0]] = None
    except OSError:
        pass  # no network: the names below are all there is
    try:
        for entry in socket.getaddrinfo(name, None, socket.AF_INET):
            found[str(entry[4][0])] = None
    except OSError:
        pass  # the machine's own name leads nowhere
    others = [a for a in found if not ipaddress.ip_address(a).is_loopback]
    return (*others, name, f"{name.partition('.')[0]}.local")


def _tell_network(names: tuple[str, ...], port: int, passphrase: str) -> None:
    numbers = [n for n in names if n.replace(".", "").isdigit() and n != _HERE]
    for number in numbers:
        typer.echo(f"On the network: http://{number}:{port}/")
    if not numbers:
        typer.echo("This machine has no address on a network now.")
    typer.echo(f"Passphrase: {passphrase}")
    typer.echo(
        "This is plain HTTP: whoever listens to the network can read along, the passphrase too."
        " Use it on a network that you trust."
    )
