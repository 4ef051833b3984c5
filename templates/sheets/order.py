"""Order: one row per Library item, and a control beside each kind."""

from templates.choices import (
    BOLT,
    KINDS,
    PER_BOLT,
    PER_NUT,
    PER_SPLICE,
    PER_STAY,
    PER_STUB,
    RING,
    ROD,
    ROPE,
    SLEEVE,
    SUNDRY,
    UNKNOWN,
)
from templates.schedule import (
    CERTIFICATE,
    FIX,
    WAITS,
    Rule,
    Sheet,
    Table,
    calculated,
    choice,
    name_and_check,
    number,
    stopped,
    text,
)
from templates.sheets.stays import STAYS_WIRE


def sum_where(keys: str, amounts: str) -> str:
    """Formula: the amounts in the rows whose key is this row's name; an error among them passes on."""
    return f"SUMPRODUCT(({keys}=[name])*1;{amounts})"


STUB_COUNT = "SUM(tangs_count)"
# Of those that are spliced; wire that stays is not.
STAY_COUNT = f'(SUM(stays_count)-SUMPRODUCT((stays_made_of="{STAYS_WIRE}")*1;stays_count))'
LOOP_COUNT = 'SUMPRODUCT((chainplates_rope<>"")*1;chainplates_count)'
BOLT_COUNT = "SUM(tangs_bolts)"
COUNTED = f'IF([each]="{PER_STUB}";{STUB_COUNT};IF([each]="{PER_STAY}";{STAY_COUNT};IF([each]="{PER_SPLICE}";2*({STAY_COUNT}+{LOOP_COUNT}+boat_trials);IF([each]="{PER_BOLT}";{BOLT_COUNT};IF([each]="{PER_NUT}";boat_nuts*{BOLT_COUNT};1)))))'

NEEDED = (
    f'IF([kind]="{ROPE}";{sum_where("stays_rope", "stays_rope_total")}+{sum_where("stays_line", "stays_line_total")}+{sum_where("chainplates_rope", "chainplates_rope_total")};'
    f'IF([kind]="{SLEEVE}";{sum_where("stays_sleeve", "stays_sleeve_total")};'
    f'IF([kind]="{RING}";{sum_where("stays_upper_ring", "stays_count")}+{sum_where("stays_lower_ring", "stays_count")}+{sum_where("chainplates_ring", "chainplates_count")};'
    f'IF([kind]="{ROD}";{sum_where("tangs_rod", "tangs_count")};'
    f'IF([kind]="{BOLT}";{sum_where("tangs_bolt", "tangs_bolts")};'
    f'IF([kind]="{SUNDRY}";[sundry.per]*{COUNTED};NA()))))))'
)
# MMULT with 1 changes no number: it makes Calc compare row by row, which it does not do for an add-in's argument.
RODS = (
    "RIG.ROD.LENGTHS([rod.stock];[rod.size];tangs_bevel;tangs_top;"
    "MMULT(IF(tangs_rod=[name];tangs_count;0);1);boat_kerf;boat_clamp)"
)
QUANTITY = (
    "IF([needed]=0;0;"
    f'IF([kind]="{ROPE}";CEILING([needed]*(1+boat_rope_waste)+boat_trial;1);'
    f'IF([kind]="{SLEEVE}";CEILING([needed]*(1+boat_rope_waste)+boat_trials*boat_trial_sleeve;1);'
    f'IF([kind]="{ROD}";{RODS};CEILING([needed];1)))))'
)

def longest(keys: str, lengths: str) -> str:
    return f"SUMPRODUCT(MAX(IF({keys}=[name];{lengths};0)))"


LONGEST = (
    f'IF([kind]="{ROPE}";MAX({longest("stays_rope", "stays_cut")};{longest("stays_line", "stays_line_each")};{longest("chainplates_rope", "chainplates_cut")});'
    f'IF([kind]="{BOLT}";{longest("tangs_bolt", "tangs_bolt_length")};""))'
)




def vouched(kind: str) -> str:
    """Formula: on what the figures of a row of the Library rest, and that a certificate is asked for where there is none."""
    claimed, denied = f'[{kind}.status]="{CERTIFICATE}"', f'[{kind}.unproven]'
    return f'" ("&IF({claimed};IF({denied}="";"with certificate";{denied}&", certificate asked for");[{kind}.status]&", certificate asked for")&")"'


ROD_HOLDS = (
    'IF([rod.crushing]="";"";", crushing strength "&[rod.crushing]&" MPa across the fibres"'
    f'&IF([rod.shear]="";"";", interlaminar shear strength "&[rod.shear]&" MPa")&{vouched("rod")})'
)
WIDEST = ";".join(
    longest(f"{table}_{key}", f"{table}_rope_size")
    for table, key in (("stays", "upper_ring"), ("stays", "lower_ring"), ("chainplates", "ring"))
)
EXACTLY = (
    f'IF([kind]="{ROPE}";[rope.family]&", diameter "&[rope.size]&" mm, breaking load "&[rope.break_load]&" kN, "&[rope.spliced]&{vouched("rope")}&", EA "&FIXED(RIG.ROPE.EA([rope.break_load];[rope.stiffness]);0;TRUE())&" kN, "&[rope.mass]&" g/m";'
    f'IF([kind]="{ROD}";IF([rod.construction]="{UNKNOWN}";"say how it is built";[rod.construction])&", diameter "&[rod.size]&" mm"&{ROD_HOLDS};'
    f'IF([kind]="{BOLT}";"stud"&IF([bolt.class]="";", proof stress "&[bolt.yield_stress]&" MPa"&{vouched("bolt")};", stamped with its class")&", thread at the ends only, pitch "&[bolt.pitch]&" mm; lengths: below and stub list";'
    f'IF([kind]="{SLEEVE}";[sleeve.material]&IF([sleeve.material]="";"";", ")&"wall "&[sleeve.wall]&" mm"&IF([needed]=0;"";", bore to slide over rope of up to "&{longest("stays_sleeve", "stays_rope_size")}&" mm");'
    f'IF([kind]="{RING}";"groove "&[ring.groove]&" mm at its bottom"&IF([needed]=0;"";", for rope of up to "&MAX({WIDEST})&" mm in a sleeve")&", hole "&[ring.hole]&" mm, working load "&[ring.load]&" kN"&{vouched("ring")};'
    f'IF([kind]="{SUNDRY}";[sundry.exactly]&"";""))))))'
)

IN_LIBRARY = (
    "".join(f'IF([kind]="{kind}";IFNA(MATCH([name];{kind}_name;0);0);' for kind in KINDS) + '""' + ")" * len(KINDS)
)

# A row that uses an item which is lost says so itself.
IN_USE = "COUNT(" + ";".join(f"MATCH([name];{used};0)" for used in ("stays_rope", "stays_line", "stays_sleeve", "stays_upper_ring", "stays_lower_ring", "tangs_rod", "tangs_bolt", "chainplates_rope", "chainplates_ring")) + ")>0"

ORDER = Table(
    "order",
    "Order",
    (
        *name_and_check("Item", "the name of the Library's item, as plain text so that typed prices stay beside it", 38),
        choice("kind", "Kind", KINDS, "which table of the Library it is in", required=True, width=17),
        calculated("each", "For each", "", f'IF([kind]="{SUNDRY}";[sundry.each];"")', "what a sundry is counted by", width=15),
        calculated("needed", "Needed", "", NEEDED, "as the rows of Stays, Stubs and Chainplates add up: metres of rope and sleeve, else pieces", format="0.0##;-0.0##;–"),
        calculated("quantity", "Quantity", "", QUANTITY, "to order: with waste and trial splices, rod in lengths", format="#,##0;-#,##0;–"),
        calculated(
            "unit",
            "Unit",
            "",
            f'IF(OR([kind]="{ROPE}";[kind]="{SLEEVE}");"m";IF([kind]="{ROD}";"length of "&[rod.stock]&" mm";IF([kind]="{SUNDRY}";[sundry.unit];"piece")))',
            "of the quantity",
            width=28,
        ),
        calculated("longest", "Longest piece", "mm", LONGEST, "rope and line: the longest single piece; bolts: the longest, each length is on the stub list", format="#,##0;-#,##0;–"),
        calculated("exactly", "What exactly", "", EXACTLY, "from the Library, for whoever sells it; EA is the least, the load of a ring its working load", width=68),
        number("price", "Price", "per unit", 0, 1000000, "in the boat's currency", format="#,##0.00"),
        calculated("total", "Total", "", 'IF([price]="";"";[price]*[quantity])', "price times quantity", format="#,##0.00", width=20),
        number("lead", "Lead time", "days", 0, 1000, "the supplier's", format="0"),
        text("supplier", "Supplier", "who quoted", width=18),
        text("note", "Note", "anything the supplier should know", width=16),
        calculated("in_library", "In Library", "row", IN_LIBRARY, "the row of that table with this name; 0 if there is none", format="0", width=12),
    ),
    rules=(
        Rule("boat", WAITS, "AND([needed]<>0;boat_wrong_boat>0)", "Boat: {boat_first}"),
        Rule("needed", WAITS, "ISERROR([needed])+ISERROR([longest])+ISERROR([exactly])+ISERROR([quantity])*ISERROR(SUM(tangs_bevel;tangs_top))>0", "rows of Stays, Stubs and Chainplates", "needed"),
        Rule("item.lost", WAITS, f"AND([in_library]=0;OR(boat_wrong_boat>0;{IN_USE}))", "Library: {name}", "name"),
        Rule("item", FIX, f"IF(boat_wrong_boat>0;FALSE();AND([in_library]=0;NOT({IN_USE})))", "Library has no {kind} of this name: give it a row there, or take this one out", "name"),
        *(Rule(f"{kind}.row", WAITS, f'IF([kind]="{kind}";{stopped(kind)};FALSE())', "Library: {name}", "name") for kind in KINDS),
    ),
    spare=2,
)


EVERY_ROW = "every row"
CONTROLS = (*KINDS, EVERY_ROW)
ROWS = {
    ROPE: "SUM(stays_rope_total)+SUM(stays_line_total)+SUM(chainplates_rope_total)",
    SLEEVE: "SUM(stays_sleeve_total)",
    RING: 'SUMPRODUCT((stays_upper_ring<>"")*1;stays_count)+SUMPRODUCT((stays_lower_ring<>"")*1;stays_count)+SUMPRODUCT((chainplates_ring<>"")*1;chainplates_count)',
    ROD: "SUM(tangs_count)",
    BOLT: "SUM(tangs_bolts)",
    SUNDRY: 'SUMPRODUCT((sundry_name<>"")*1)',
    EVERY_ROW: '""',
}
# Rows of Order with something to buy, of this row's kind or of all.
BOUGHT = f'((order_kind=[name])+([name]="{EVERY_ROW}")>0)*ISNUMBER(order_quantity)*(order_quantity<>0)'
CONTROL = Table(
    "control",
    "Controls: what Order adds up to, and what the rows of the other sheets add up to",
    (
        *name_and_check("Kind", "the export is refused while one of these is not OK", 38),
        calculated(
            "ordered",
            "In Order",
            "",
            f'IF([name]="{EVERY_ROW}";"";IF([name]="{SUNDRY}";SUMPRODUCT((order_kind="{SUNDRY}")*(order_name<>""));'
            "SUMPRODUCT((order_kind=[name])*1;order_needed)))",
            "sum of Needed, of this kind",
            format="0.0##",
        ),
        calculated(
            "rows",
            "In the rows",
            "",
            "".join(f'IF([name]="{kind}";{total};' for kind, total in ROWS.items()) + "NA()" + ")" * len(ROWS),
            "sum over Stays, Stubs, Chainplates or the Library, whatever their keys",
            format="0.0##",
            width=15,
        ),
        calculated("price", "Price", "", f'IF([name]="{EVERY_ROW}";SUM(order_total);SUMPRODUCT((order_kind=[name])*1;order_total))', "of all that has a price, in the boat's currency", format="#,##0.00"),
        calculated("unpriced", "Without a price", "items", f"SUMPRODUCT({BOUGHT}*ISBLANK(order_price))", "of those to be bought; the price beside is short by them", format="#,##0;-#,##0;–"),
        calculated("lead", "Longest lead", "days", f"SUMPRODUCT(MAX(IF({BOUGHT};order_lead;0)))", "of those to be bought", format="#,##0;-#,##0;–"),
    ),
    rules=(
        Rule(
            "short",
            FIX,
            "ROUND([ordered]-[rows];3)<>0",
            "Order has {ROUND([ordered];3)}, the rows need {ROUND([rows];3)}",
            remedy="an item is missing from Order or is there twice",
        ),
        Rule("needed", WAITS, "ISERROR([ordered])+ISERROR([rows])+ISERROR([price])+ISERROR([unpriced])+ISERROR([lead])>0", "rows of Stays, Stubs and Chainplates", "ordered"),
        Rule("rows", WAITS, f'AND([name]="{EVERY_ROW}";boat_mend>0)', "rows to fix: {boat_mend}"),
        Rule("danger", WAITS, f'AND([name]="{EVERY_ROW}";boat_danger>0)', "rows in danger: {boat_danger}"),
    ),
    spare=1,
)

SHEET = Sheet(
    "Order",
    "One row per item to buy. Prices and lead times are yours to type, or to read back from the supplier's file.",
    (ORDER, CONTROL),
)
