"""Who may talk to the workbench: hosts, origins, sizes, headers, the passphrase on a network."""

import re

import pytest

from axlewright.web import files
from axlewright.web.errors import Faults
from axlewright.web.security import HEADERS, LARGEST_BODY, Guard
from axlewright.web.sessions import COOKIE, Sessions
from axlewright.web.words import HOW_MANY, WORDS, new_passphrase

HERE = "http://127.0.0.1"
WORDS_SAID = "copper wren stout axle"
HTMX = next(f"/{n}" for n in files.kept() if re.fullmatch(r"static/htmx-.*\.js", n))


@pytest.fixture(scope="module")
def client(workbench):
    with workbench() as made:
        yield made


@pytest.fixture
def lan(workbench):
    with workbench(lan=True, passphrase=WORDS_SAID, hosts=("127.0.0.1", "bench.local")) as made:
        yield made


def told(answer, status):
    assert answer.status_code == status, answer.text
    error = answer.json()["error"]
    return error["kind"], error["message"]


# Host ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("host", ["127.0.0.1", "127.0.0.1:8177", "localhost:8177", "LOCALHOST",
                                  "[::1]:8177"])  # fmt: skip
def test_own_names_are_answered(client, host):
    assert client.get("/api/builds", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    ["evil.example", "evil.example:8177", "127.0.0.1.evil.example", "localhost.", "127.0.0.1@evil",
     "127.0.0.1:8177:1", "127.0.0.1:x", "", "[::2]", "192.0.2.7", "0.0.0.0", "127.0.0.1 evil"],
)  # fmt: skip
@pytest.mark.parametrize("path", ["/api/builds", "/", HTMX])
def test_foreign_names_are_refused(client, host, path):
    answer = client.get(path, headers={"Host": host})
    assert answer.status_code == 403
    assert "does not answer to this host name" in answer.text


def test_a_foreign_name_changes_nothing_though_the_origin_fits_it(client):
    headers = {"Host": "evil.example", "Origin": "http://evil.example"}
    assert told(client.post("/api/builds", json={}, headers=headers), 403)[0] == "refused"
    assert client.workshop.store.builds() == ()


# Origin ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": HERE},
        {"Origin": HERE, "Sec-Fetch-Site": "same-origin"},
        {"Sec-Fetch-Site": "same-origin"},
        {"Sec-Fetch-Site": "none"},
    ],
)
def test_own_pages_may_change_things(client, headers):
    del client.headers["Origin"]
    try:
        assert client.post("/api/builds", json={}, headers=headers).status_code == 201
    finally:
        client.headers["Origin"] = HERE


@pytest.mark.parametrize("method", ["POST", "PUT", "PATCH", "DELETE"])
@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Origin": "null"},
        {"Origin": "http://evil.example"},
        {"Origin": "http://127.0.0.1:8000"},
        {"Origin": "https://127.0.0.1"},
        {"Origin": "http://127.0.0.1.evil.example"},
        {"Origin": ""},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Origin": HERE, "Sec-Fetch-Site": "cross-site"},
        {"Origin": "http://evil.example", "Sec-Fetch-Site": "same-origin"},
    ],
)
def test_other_sites_change_nothing(client, method, headers):
    before = client.workshop.store.builds()
    del client.headers["Origin"]
    try:
        answer = client.request(method, "/api/builds", json={}, headers=headers)
    finally:
        client.headers["Origin"] = HERE
    assert told(answer, 403)[0] == "refused"
    assert client.workshop.store.builds() == before


def test_a_program_is_told_what_to_send(client):
    del client.headers["Origin"]
    try:
        answer = client.post("/api/builds", json={})
    finally:
        client.headers["Origin"] = HERE
    assert f"Origin: {HERE}" in told(answer, 403)[1]


def test_other_sites_may_link_but_load_nothing(client):
    link = {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate"}
    assert client.get("/", headers=link).status_code == 200
    load = {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"}
    assert client.get("/api/builds", headers=load).status_code == 403
    assert client.get("/fonts/AxlewrightSans-Bold.woff2", headers=load).status_code == 403


def test_nobody_else_may_read_answers(client):
    answer = client.options("/api/builds", headers={"Origin": "http://evil.example"})
    assert not [h for h in answer.headers if h.startswith("access-control-")]


# Sizes -----------------------------------------------------------------------------------------


def pieces(size):
    for _ in range(size // 10_000 + 1):
        yield b" " * 10_000


@pytest.mark.parametrize("path", ["/api/builds", "/builds/import", "/api/nothing"])
def test_a_body_that_is_too_large_is_refused(client, path):
    for body in (b"x" * (LARGEST_BODY + 1), pieces(LARGEST_BODY)):
        answer = client.post(path, content=body, headers={"Content-Type": "application/json"})
        assert answer.status_code == 413
        assert "1,000,000 bytes" in answer.text


def test_a_size_that_is_a_lie_does_not_help(client):
    headers = {"Content-Length": "10", "Content-Type": "application/json"}
    answer = client.post("/api/builds", content=b" " * (LARGEST_BODY + 1), headers=headers)
    assert answer.status_code == 413


def test_a_body_at_the_limit_is_read(client):
    body = b'{"note": "x"}'.ljust(LARGEST_BODY)
    answer = client.post("/api/builds", content=body, headers={"Content-Type": "application/json"})
    assert answer.status_code == 201


# Headers ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [
        ("GET", "/", 200),
        ("GET", "/api/builds", 200),
        ("GET", "/fonts/AxlewrightSans-Bold.woff2", 200),
        ("GET", "/nothing", 404),
        ("GET", "/api/nothing", 404),
        ("PUT", "/api/builds", 405),
        ("POST", "/api/builds", 422),
    ],
)
def test_every_answer_bears_the_safe_headers(client, method, path, status):
    answer = client.request(method, path)
    assert answer.status_code == status
    assert {n: answer.headers[n] for n in HEADERS} == HEADERS


def test_refused_and_failed_answers_bear_them_too(client, monkeypatch, capfd):
    answers = [client.get("/", headers={"Host": "evil.example"})]
    monkeypatch.setattr(type(client.workshop.store), "builds", lambda self: 1 / 0)
    answers += [client.get("/api/builds"), client.get("/")]
    assert [a.status_code for a in answers] == [403, 500, 500]
    for answer in answers:
        assert {n: answer.headers[n] for n in HEADERS} == HEADERS
        assert "division" not in answer.text
    assert "ZeroDivisionError" in capfd.readouterr().err


def test_the_policy_allows_no_script_or_style_inside_a_page():
    policy = HEADERS["Content-Security-Policy"]
    assert policy.startswith("default-src 'self';")
    assert "unsafe" not in policy and "http" not in policy and "*" not in policy
    assert "script-src" not in policy and "style-src" not in policy  # both as the default


def test_answers_are_not_kept_by_browsers_but_files_are(client):
    assert client.get("/api/builds").headers["cache-control"] == "no-store"
    assert client.get("/").headers["cache-control"] == "no-store"
    address = files.address(HTMX.removeprefix("/static/"))
    assert "immutable" in client.get(address).headers["cache-control"]
    plain = client.get(address.partition("?")[0])
    assert plain.headers["cache-control"] == "no-cache"
    again = client.get(address, headers={"If-None-Match": plain.headers["etag"]})
    assert again.status_code == 304 and again.content == b""


def test_answers_are_packed(client):
    answer = client.get("/api/keys", headers={"Accept-Encoding": "gzip"})
    assert answer.headers["content-encoding"] == "gzip"


def test_no_cookie_without_a_network(client):
    assert "set-cookie" not in client.get("/").headers
    assert client.get("/unlock").status_code == 404


def test_nothing_is_loaded_from_others(client):
    assert client.get("/docs").status_code == client.get("/redoc").status_code == 404
    page = client.get("/").text
    assert not re.findall(r'(?:src|href|action)="(?:https?:)?//', page)


# Files -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "path",
    ["/static/../app.py", "/static/..%2fapp.py", "/static/%2e%2e/app.py", "/static//etc/passwd",
     "/static/%2fetc%2fpasswd", "/fonts/..%2f__init__.py", "/fonts/__init__.py", "/static/",
     "/static/%00", "/fonts/widths.json", "/static/..%5capp.py"],
)  # fmt: skip
def test_no_path_reaches_the_file_system(client, path):
    answer = client.get(path)
    assert answer.status_code == 404
    assert "import" not in answer.text and "root:" not in answer.text


def test_every_file_of_ours_has_a_kind_that_browsers_know():
    kinds = {file.kind for file in files.kept().values()}
    assert "application/octet-stream" not in kinds
    assert {"font/woff2", "text/javascript; charset=utf-8"} <= kinds


# The passphrase --------------------------------------------------------------------------------


def test_a_network_asks_everybody(lan):
    answer = lan.get("/")
    assert (answer.status_code, answer.headers["location"]) == (303, "/unlock")
    kind, said = told(lan.get("/api/builds"), 401)
    assert kind == "locked" and "/unlock" in said
    assert lan.post("/builds/new", data={}).status_code == 401
    assert lan.get("/api/openapi.json").status_code == 401
    page = lan.get("/unlock")
    assert page.status_code == 200 and "encrypted" in page.text
    assert WORDS_SAID not in page.text


def test_the_passphrase_opens_a_session(lan):
    answer = lan.post("/unlock", data={"passphrase": " Copper-wren  STOUT axle"})
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    cookie = answer.headers["set-cookie"]
    assert cookie.startswith(f"{COOKIE}=") and "HttpOnly" in cookie
    assert "SameSite=strict" in cookie and "Path=/" in cookie and "Domain" not in cookie
    assert lan.get("/").status_code == 200
    assert lan.post("/api/builds", json={}).status_code == 201


def test_a_session_does_not_spare_the_origin(lan):
    lan.post("/unlock", data={"passphrase": WORDS_SAID})
    answer = lan.post("/api/builds", json={}, headers={"Origin": "http://evil.example"})
    assert told(answer, 403)[0] == "refused"


@pytest.mark.parametrize("cookie", ["", "x", f"{COOKIE}=", f"{COOKIE}=guess", f"{COOKIE}; a=b",
                                    f'{COOKIE}="', "\x7f=;;="])  # fmt: skip
def test_a_made_up_session_is_none(lan, cookie):
    assert lan.get("/api/builds", headers={"Cookie": cookie}).status_code == 401


def test_wrong_guesses_have_to_wait(lan):
    said = [lan.post("/unlock", data={"passphrase": f"guess {k}"}) for k in range(6)]
    assert [a.status_code for a in said] == [403] * 5 + [429]
    assert int(said[-1].headers["retry-after"]) in range(1, 62)
    right = lan.post("/unlock", data={"passphrase": WORDS_SAID})
    assert right.status_code == 429 and "set-cookie" not in right.headers
    assert 'role="alert"' in right.text


def test_another_site_cannot_guess(lan):
    headers = {"Origin": "http://evil.example"}
    answer = lan.post("/unlock", data={"passphrase": WORDS_SAID}, headers=headers)
    assert answer.status_code == 403 and "set-cookie" not in answer.headers


def test_a_network_takes_only_names_it_was_given(lan):
    lan.post("/unlock", data={"passphrase": WORDS_SAID})
    for host, status in {"bench.local": 200, "evil.example": 403, "192.0.2.7": 403}.items():
        assert lan.get("/api/builds", headers={"Host": host}).status_code == status, host


def test_on_a_network_the_address_that_was_called_is_ours():
    sessions = Sessions(WORDS_SAID)
    for server, mine, open_to_lan in (
        ("192.0.2.7", True, sessions), ("192.0.2.8", False, sessions), ("192.0.2.7", False, None),
    ):  # fmt: skip
        guard = Guard(None, ("127.0.0.1",), open_to_lan)
        assert guard._mine("192.0.2.7", {"server": (server, 8177)}) is mine


def test_no_network_without_a_passphrase(workbench):
    for nothing in ("", "  ", "--"):
        with (
            pytest.raises(ValueError, match="needs a passphrase"),
            workbench(lan=True, passphrase=nothing),
        ):
            pass


class Clock:
    now = 1000.0

    def __call__(self):
        return self.now


@pytest.fixture
def clock():
    return Clock()


def test_waiting_ends(clock):
    sessions = Sessions(WORDS_SAID, clock)
    for _ in range(5):
        assert sessions.unlock("wrong", "192.0.2.1") is None
    assert sessions.wait("192.0.2.1") == 61
    assert sessions.unlock(WORDS_SAID, "192.0.2.1") is None
    clock.now += 60.0
    assert sessions.wait("192.0.2.1") == 0
    assert sessions.known(sessions.unlock(WORDS_SAID, "192.0.2.1"))


def test_who_guesses_makes_nobody_else_wait_until_there_are_many(clock):
    sessions = Sessions(WORDS_SAID, clock)
    for k in range(29):
        sessions.unlock("wrong", f"192.0.2.{k // 5}")
    assert sessions.wait("198.51.100.1") == 0
    sessions.unlock("wrong", "192.0.2.9")
    assert sessions.wait("198.51.100.1") > 0


def test_hasty_guesses_do_not_lengthen_the_wait(clock):
    sessions = Sessions(WORDS_SAID, clock)
    for _ in range(50):
        sessions.unlock("wrong", "192.0.2.1")
    clock.now += 61.0
    assert sessions.wait("192.0.2.1") == 0


def test_old_sessions_give_way(clock):
    sessions = Sessions(WORDS_SAID, clock)
    tokens = [sessions.unlock(WORDS_SAID, "192.0.2.1") for _ in range(52)]
    assert len(set(tokens)) == 52 and all(len(t) >= 40 for t in tokens)
    assert [sessions.known(t) for t in tokens] == [False] * 2 + [True] * 50
    assert not sessions.known("") and not sessions.known("guess")


def test_passphrases_are_many_plain_words():
    assert len(WORDS) == len(set(WORDS)) == 256
    assert all(re.fullmatch("[a-z]{3,9}", w) for w in WORDS)
    made = {new_passphrase() for _ in range(50)}
    assert len(made) == 50
    assert all(len(m.split()) == HOW_MANY and set(m.split()) <= set(WORDS) for m in made)


# Faults ----------------------------------------------------------------------------------------


def test_what_fails_in_the_middle_of_an_answer_ends_it(capfd):
    import asyncio

    sent = []

    async def app(scope, receive, send):
        await send({"type": "http.response.start", "status": 200, "headers": []})
        raise ZeroDivisionError

    async def send(message):
        sent.append(message)

    asyncio.run(Faults(app)({"type": "http", "path": "/"}, None, send))
    assert [m["type"] for m in sent] == ["http.response.start"]
    assert "ZeroDivisionError" in capfd.readouterr().err
