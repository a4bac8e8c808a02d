"""Makes the hostile files of this folder: python make.py, standard library alone (Python 3.11)."""
import os, zipfile, zlib

HERE = os.path.dirname(os.path.abspath(__file__))


def put(name, data):
    with open(os.path.join(HERE, name), "wb") as f:
        f.write(data)


def pdf(head, stream):
    objects = [b"<< /Type /Catalog /Pages 2 0 R >>", b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
               b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 600 800] /Contents 4 0 R /Resources << >> >>",
               head + b"\nstream\n" + stream + b"\nendstream"]
    out, at = b"%PDF-1.4\n", []
    for i, o in enumerate(objects, 1):
        at.append(len(out))
        out += b"%d 0 obj\n" % i + o + b"\nendobj\n"
    x = len(out)
    out += b"xref\n0 5\n0000000000 65535 f \n" + b"".join(b"%010d 00000 n \n" % a for a in at)
    return out + b"trailer << /Size 5 /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF" % x


def deflated(size):
    c, out, block = zlib.compressobj(9), b"", b" " * (1 << 20)
    for _ in range(size >> 20):
        out += c.compress(block)
    return out + c.flush()


# Two gigabytes of spaces, packed twice: a few kilobytes.
twice = zlib.compress(deflated(2 << 30), 9)
put("bomb.pdf", pdf(b"<< /Length %d /Filter [/FlateDecode /FlateDecode] >>" % len(twice), twice))
deep = zlib.compress(b"[" * 200_000, 9)
put("deep.pdf", pdf(b"<< /Length %d /Filter /FlateDecode >>" % len(deep), deep))

# 300 MB of spaces in a sheet; and the same with a directory that says 1,000 bytes.
WORKBOOK = {
    "[Content_Types].xml": '<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
    "_rels/.rels": '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>',
    "xl/workbook.xml": '<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="a" sheetId="1" r:id="rId1"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels": '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
}


def workbook(name, middle, say=None):
    path = os.path.join(HERE, name)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as z:
        for entry, text in WORKBOOK.items():
            z.writestr(zipfile.ZipInfo(entry, (2024, 1, 1, 0, 0, 0)), text)
        sheet = zipfile.ZipInfo("xl/worksheets/sheet1.xml", (2024, 1, 1, 0, 0, 0))
        sheet.compress_type = zipfile.ZIP_DEFLATED
        with z.open(sheet, "w") as f:
            f.write(b'<?xml version="1.0"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>')
            for block in middle:
                f.write(block)
            f.write(b"</sheetData></worksheet>")
    if say:
        b = bytearray(open(path, "rb").read())
        i = b.rindex(b"PK\x01\x02")
        b[i + 24:i + 28] = say.to_bytes(4, "little")
        open(path, "wb").write(bytes(b))


row = b"<row>" + b'<c t="inlineStr"><is><t>x</t></is></c>' * 1000 + b"</row>"
workbook("bomb.xlsx", (b" " * (1 << 20) for _ in range(300)))
workbook("liar.xlsx", (row for _ in range(5_000)), say=1000)
# One cell, at the far corner of the sheet.
workbook("far.xlsx", [b'<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'])
