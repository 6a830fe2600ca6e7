"""Files kept with a build: what is taken, how large, and how it is handed out again."""

import asyncio
from urllib.parse import quote

import pytest
from hypothesis import given
from hypothesis import strategies as st
from starlette.exceptions import HTTPException

from axlewright.store.builds import LARGEST_ATTACHMENT, MOST_ATTACHMENTS, Store
from axlewright.store.database import NotFoundError, StoreError
from axlewright.web.security import (
    LARGEST_BODY,
    LARGEST_UPLOAD,
    LOOPBACK,
    PICTURE_POLICY,
    POLICY,
    Guard,
)
from axlewright.workshop.attaching import (
    ENDINGS,
    SHOWN,
    FileRefusedError,
    disposition,
    kind_of,
    plain_name,
)
from axlewright.workshop.template import template

PNG = b"\x89PNG\r\n\x1a\n" + b"\0" * 40
JPG = b"\xff\xd8\xff\xe0" + b"\0" * 40
CSV = b"rpm,lb ft\n3000,380\n"
PDF = b"%PDF-1.7\n%x\n"


@pytest.fixture(scope="module")
def client(workbench):
    with workbench() as made:
        yield made


@pytest.fixture
def build(client):
    return client.workshop.store.create(template()).id


def upload(client, where, name, data, kind="application/octet-stream"):
    return client.post(where, files={"file": (name, data, kind)})


def kept(client, build, name, data):
    answer = upload(client, f"/api/builds/{build}/attachments", name, data)
    assert answer.status_code == 201, answer.text
    return answer.json()["result"]


# What is taken ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "data", "kind"),
    [
        ("case.png", PNG, "image/png"),
        ("IMG 1.JPEG", JPG, "image/jpeg"),
        ("a.webp", b"RIFF\0\0\0\0WEBPVP8 ", "image/webp"),
        ("a.heic", b"\0\0\0\x18ftypheic", "image/heic"),
        ("dyno.csv", CSV, "text/csv"),
        ("bill.pdf", PDF, "application/pdf"),
        ("sheet.xlsx", b"PK\x03\x04....", "application/vnd.openxmlformats"),
    ],
)
def test_kind_by_ending_and_contents(name, data, kind):
    assert kind_of(name, data).startswith(kind)


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("page.html", b"<script>alert(1)</script>", ".html are not taken"),
        ("drawing.svg", b"<svg onload='x'/>", ".svg are not taken"),
        ("run.exe", b"MZ", ".exe are not taken"),
        ("noending", b"x", "without an ending"),
        ("photo.png", b"<script>alert(1)</script>", "holds something else"),
        ("photo.jpg", PNG, "holds something else"),
        ("notes.txt", b"a\0b", "holds something else"),
        ("empty.csv", b"", "is empty"),
    ],
)
def test_what_is_refused(client, build, name, data, said):
    with pytest.raises(FileRefusedError, match=said):
        kind_of(name, data)
    told = upload(client, f"/api/builds/{build}/attachments", name, data)
    assert told.status_code == 422 and said in told.json()["error"]["message"]
    page = upload(client, f"/builds/{build}/papers/files", name, data)
    assert page.status_code == 422
    assert 'aria-invalid="true"' in page.text and said in page.text
    assert client.workshop.store.attachments(build) == ()


@given(st.text(max_size=300))
def test_a_name_is_never_a_path_nor_breaks_a_header(name):
    plain = plain_name(name)
    assert plain and not set(plain) & set('/\\"\r\n\0<>|:?*')
    assert len(plain) <= 140 and plain_name(plain) == plain
    header = disposition(plain, shown=False)
    assert header.isascii() and header.isprintable() and header.startswith("attachment; ")
    assert header.count('"') == 2


@pytest.mark.parametrize(
    ("name", "plain"),
    [("../../etc/passwd.txt", "passwd.txt"), ("C:\\x\\a b.png", "a b.png"),
     ("Prüfstand 7.csv", "Prüfstand 7.csv"), ("", "file"), ("..", "file.")],
)  # fmt: skip
def test_plain_names(name, plain):
    assert plain_name(name) == plain


def test_only_plain_pictures_are_ever_shown():
    assert {"image/jpeg", "image/png", "image/webp", "image/gif"} == SHOWN
    assert not {"svg", "html", "htm", "xml", "js"} & set(ENDINGS)


# Kept, listed, handed out, removed -------------------------------------------------------------


def test_a_file_comes_back_byte_for_byte(client, build):
    made = kept(client, build, "Prüfstand 7.csv", CSV)
    assert (made["name"], made["kind"], made["size"]) == ("Prüfstand 7.csv", "text/csv", len(CSV))
    listed = client.get(f"/api/builds/{build}/attachments").json()["result"]
    assert listed == [made]
    answer = client.get(f"/api/builds/{build}/attachments/{made['id']}")
    assert answer.content == CSV
    assert answer.headers["content-disposition"] == (
        "attachment; filename=\"Prufstand 7.csv\"; filename*=UTF-8''Pr%C3%BCfstand%207.csv"
    )
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["content-security-policy"] == POLICY


@pytest.mark.parametrize(("name", "data", "shown"), [("a.png", PNG, True), ("a.pdf", PDF, False),
                                                     ("a.txt", b"<b>", False)])  # fmt: skip
def test_only_a_picture_is_shown_when_asked(client, build, name, data, shown):
    id = kept(client, build, name, data)["id"]
    for where in (f"/api/builds/{build}/attachments/{id}", f"/builds/{build}/papers/files/{id}"):
        asked = client.get(f"{where}?show=true").headers["content-disposition"]
        assert asked.startswith("inline" if shown else "attachment")
        policy = client.get(f"{where}?show=true").headers["content-security-policy"]
        assert policy == (PICTURE_POLICY if shown else POLICY)
        assert "script" not in policy and "frame-ancestors 'none'" in policy
        assert client.get(where).headers["content-disposition"].startswith("attachment")


def test_the_page_lists_keeps_and_removes(client, build):
    answer = upload(client, f"/builds/{build}/papers/files", "<b>.png", PNG, "text/html")
    assert answer.status_code == 303
    (file,) = client.workshop.store.attachments(build)
    assert (file.name, file.kind) == ("b.png", "image/png")
    page = client.get(f"/builds/{build}/papers").text
    assert "b.png" in page and f"/papers/files/{file.id}?show=true" in page
    assert client.post(f"/builds/{build}/papers/files/{file.id}/remove").status_code == 303
    assert client.workshop.store.attachments(build) == ()
    assert client.get(f"/builds/{build}/papers/files/{file.id}").status_code == 404


def test_removed_by_a_program(client, build):
    id = kept(client, build, "a.png", PNG)["id"]
    assert client.delete(f"/api/builds/{build}/attachments/{id}").json()["result"] == {"id": id}
    gone = client.delete(f"/api/builds/{build}/attachments/{id}")
    assert gone.status_code == 404 and gone.json()["error"]["kind"] == "not found"


def test_a_file_belongs_to_its_build(client, build):
    id = kept(client, build, "a.png", PNG)["id"]
    other = client.workshop.store.create(template()).id
    assert client.get(f"/api/builds/{other}/attachments/{id}").status_code == 404
    assert client.delete(f"/api/builds/{other}/attachments/{id}").status_code == 404
    assert upload(client, "/api/builds/none/attachments", "a.png", PNG).status_code == 404


def test_the_store_holds_so_many_and_no_more():
    store = Store(None)
    id = store.create("").id
    for n in range(MOST_ATTACHMENTS):
        store.attach(id, f"{n}.txt", b"x", "text/plain")
    with pytest.raises(StoreError, match="100 files are the most"):
        store.attach(id, "one.txt", b"x", "text/plain")
    store.detach(id, store.attachments(id)[0].id)
    store.attach(id, "one.txt", b"x", "text/plain")
    with pytest.raises(NotFoundError):
        store.detach(id, "none")
    store.close()


# Sizes -----------------------------------------------------------------------------------------


def test_a_file_of_the_largest_size_is_kept(client, build):
    data = CSV.ljust(LARGEST_ATTACHMENT, b"x")
    assert kept(client, build, "large.csv", data)["size"] == LARGEST_ATTACHMENT


def test_one_byte_more_is_refused(client, build):
    data = CSV.ljust(LARGEST_ATTACHMENT + 1, b"x")
    for where in (f"/api/builds/{build}/attachments", f"/builds/{build}/papers/files"):
        answer = upload(client, where, "large.csv", data)
        assert answer.status_code == 413 and "20 MB, no more" in answer.text
    assert client.workshop.store.attachments(build) == ()


def test_a_stream_is_read_to_its_limit_and_no_further():
    taken = 0

    async def receive():
        nonlocal taken
        taken += 100_000
        return {"type": "http.request", "body": b"x" * 100_000, "more_body": True}

    async def application(_scope, receive, _send):
        while True:
            await receive()

    scope = {
        "type": "http", "method": "POST", "path": "/api/builds/a/attachments", "scheme": "http",
        "headers": [(b"host", b"127.0.0.1"), (b"origin", b"http://127.0.0.1")],
    }  # fmt: skip
    with pytest.raises(HTTPException) as told:
        asyncio.run(Guard(application, LOOPBACK, None)(scope, receive, None))
    assert told.value.status_code == 413
    assert LARGEST_UPLOAD < taken <= LARGEST_UPLOAD + 100_000


def test_a_form_that_goes_on_too_long_is_told_in_the_one_shape(client, build):
    def form():
        yield b'--x\r\nContent-Disposition: form-data; name="file"; filename="a.csv"\r\n\r\n'
        for _ in range(LARGEST_UPLOAD // 100_000 + 1):
            yield b"x" * 100_000

    answer = client.post(
        f"/api/builds/{build}/attachments",
        content=form(),
        headers={"Content-Type": "multipart/form-data; boundary=x"},
    )
    assert answer.status_code == 413
    assert answer.json()["error"]["kind"] == "too large"


@pytest.mark.parametrize(
    "where",
    [
        "/api/builds/{}/revisions",
        "/builds/{}/car/text",
        "/builds/import",
        "/api/builds/{}/attachments/x",
        "/builds/{}/papers/restore",
    ],
)
def test_no_other_address_takes_as_much(client, build, where):
    answer = client.post(where.format(build), content=b"x" * (LARGEST_BODY + 1))
    assert answer.status_code == 413


def test_a_form_without_a_file_is_told(client, build):
    told = client.post(f"/api/builds/{build}/attachments", data={"x": "y"})
    assert told.status_code == 422 and told.json()["error"]["message"] == "file: is missing"


# Own parts by name -----------------------------------------------------------------------------


def test_a_key_below_a_name_in_quotes_is_changed(client, build):
    text = template() + '\n[parts.axle_shafts."my own 9/32 \\"hot\\" bar"]\nsplines = 31\n'
    made = client.post("/api/builds", json={"text": text}).json()["result"]["build"]["id"]
    keys = [k["key"] for k in client.get(f"/api/builds/{made}/keys").json()["result"]]
    (key,) = [k for k in keys if k.startswith("parts.axle_shafts.") and k.endswith("splines")]
    answer = client.patch(f"/api/builds/{made}/keys/{quote(key, safe='')}", json={"value": "33"})
    assert answer.status_code == 200, answer.text
    assert "splines = 33" in answer.json()["result"]["revision"]["text"]
    assert '"my own 9/32 \\"hot\\" bar"' in answer.json()["result"]["revision"]["text"]


@pytest.mark.parametrize("key", ['"', '"a', "a.'", 'a."b"c', '"' + "x" * 201 + '"'])
def test_quotes_that_do_not_close_are_no_key(client, build, key):
    answer = client.patch(f"/api/builds/{build}/keys/{key}", json={"value": "1"})
    assert answer.status_code == 422 and answer.json()["error"]["kind"] == "bad input"
