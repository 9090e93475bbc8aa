"""Where the levels of the structures come from. The figures are facts of the tables named here."""

CEFR_J = (
    "CEFR-J Grammar Profile, version 20180315, Tono Laboratory, Tokyo University of Foreign Studies "
    "(http://www.cefr-j.org/download.html): column CEFR-J Level"
)
CEFR_J_AND_PROFILE = (
    CEFR_J + "; the higher level, where there is one, is the first that its columns for other profiles give"
)
HOUSE = "house default; common practice, no source"
HOUSE_PRE_A1 = (
    "A1.1 to A1.3, the lowest bands of the CEFR-J Grammar Profile, version 20180315; free at Pre-A1 by house default "
    "(common practice in first courses for children, no source)"
)
