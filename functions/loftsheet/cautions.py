"""The cautions that the workbook, the export and the drawings carry; each sentence stands here only."""

PULLING = "Whatever is pulled can part: stand clear of the line of pull, and keep others out of it."
ALOFT = "Going aloft: two independent lines, and never on a rig that is being changed."
MODEL = "A model of a rig is no approval of it: who answers for the rig checks it by other means."

CAUTIONS = (
    "Rigging holds up a mast over people. This is a calculation aid and no design approval.",
    "Rope and rod data come from the maker's own certificate. Take-up and set come from a trial splice, and a "
    "trial splice is pulled before it is trusted.",
    "The work is checked by a qualified rigger or surveyor. Local rules and the insurer decide.",
    MODEL,
    "A bolt that carries a stub bends: what it holds is often far below the wire it replaces.",
    PULLING,
    ALOFT,
    "Glass-epoxy dust harms lungs and skin: mask, extraction, gloves, wet cutting.",
    "Sawing and drilling short round stock: clamp it in a V, never hold it by hand.",
    "Replacing metal rigging may remove the path of lightning to the water. Ask before you do.",
)
