"""The handbook that most of the facts about wood come from, and how it was read."""

from tests.published.case import Source

_TITLE = "Forest Products Laboratory, Wood Handbook: Wood as an Engineering Material"

GTR_282 = Source(
    title=f"{_TITLE}, FPL-GTR-282 (2021)",
    found="fpl.fs.usda.gov/documnts/fplgtr/fplgtr282/fplgtr282.pdf; read in the transcription "
    "github.com/soconnell345-geotech/geotech-references, wood_handbook/",
)
GTR_190 = Source(
    title=f"{_TITLE}, FPL-GTR-190 (2010)",
    found="pages read at issuhub.com/view/index/5801, pageIndex 85 (Table 4-3), 307 (Table 13-5) "
    "and 308 (the example)",
)
