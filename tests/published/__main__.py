"""Writes AGREEMENT.md."""

from tests.published.agreement import TABLE, table_of_agreement

if __name__ == "__main__":
    TABLE.write_text(table_of_agreement(), encoding="utf-8")
    print(f"wrote {TABLE.name}")
