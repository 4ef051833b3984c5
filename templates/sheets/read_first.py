"""Read first: what the book is, what it is not, and how to start."""

from loftsheet import __version__
from loftsheet.cautions import CAUTIONS

from templates.schedule import Sheet

START = (
    "Rig, the first sheet: its third line says what to do next and in which cell. Below it the boat is drawn as far as it is known.",
    "Library: put in the rope, rod and bolts that you can buy, from their certificates, and pick under Status what the figures rest on; "
    "what rests on no certificate is named by the check of every stay and stub. Check the Schedule puts new items on Order.",
    "Boat: pick rope, rod and bolt, look at line, sleeve and ring, and type the righting moment. "
    "Until then the checks say what they wait for on Boat. Then go down the sheet and question every value.",
    "Masts: one row per mast: where its foot stands, rake, height, width and section. Rake and section of a mizzen are its own.",
    "Add a Stay in the menu Rigging asks for a stay's kind, its points and what hung there, and fills its rows on Points, Stays and "
    "Stubs, both sides at once. Or fill them by hand:",
    "Points: survey mast points, spreader tips and chainplates from one datum. Out is counted away from the centreline, "
    "on either side without a minus.",
    "Stays: one row per stay; one of existing wire, as under a furler, says so under Made of. Pick its points and its wire, "
    "and where its load comes from. A shroud over a spreader needs the tip under Via, over two the upper one there. A load that is not from the righting moment "
    "gives no pretension: measure what the wire is set up to (a gauge, or RIG.TENSION.PLUCK from its note) and type it.",
    "Stubs: one row per stub, each for one stay by name. Where one bolt holds two, as a fore and an aft lower, the second is picked under "
    "Outer stay. Once a bolt is made, say how, and type its plain shank as measured.",
    "Chainplates: one row per point where stays end below: metal with what it holds, or a loop of rope. All that hangs there is summed.",
    "Balance: one row per sail case, seven are there. Type the waterline on Boat, and with two masts the righting moment of each on "
    "Masts; then it gives the tension of each stay at the dock and in each case.",
    "Check stands after every name: it says OK, or what is wrong. What begins with fix or danger has to be put right; the rest is for "
    "you to consider. A cell shows how a long line begins: Explain This Cell in the menu Rigging gives all of it, Check the Schedule "
    "lists all rows with what would do. Boat counts the rows that are not OK.",
    "Bench: pick a stay and print the page over your bench. Order: one row per item to buy.",
    "Log: one row per inspection, as long as the rig stands.",
)

ORDER_OF_WORK = (
    "Trial splice first, of every size of rope that is used: its take-up and set change every cut. Type them into Library, count up "
    "the revision and print again; a bench page from before is void.",
    "Saw and drill every stub by its mark-out sheet, the first one in wood. Bolt, tube, washers, plate and eye go together on the "
    "ground first.",
    "The mast is best taken down. If it stands, it is held by other means than the stays that are changed, one stay at a time, "
    "and by a rigger.",
    "Splice every stay by its bench page, pull it on the bench to its load until it grows no more, and measure it at its pretension.",
    "Step the mast, hang all stays slack, then set up evenly, a little on each side in turn: first caps, then forestay and "
    "backstay, lowers last, and sight up the mast groove. Then inner forestay and runners. Stays that hang one below the other: lash the upper one "
    "at its gap, haul the lowest.",
    "Tune at a temperature in the middle of what the boat sees; Stays says what is left of the pretension when it is colder. "
    "Write temperature, tension and gap into Log.",
    "Lashing (common practice, no source): turns side by side from ring to chainplate through a smooth hole or a shackle, each hauled "
    "in turn; the haul of Stays asks for a winch or a tackle above what one hand pulls, about 0.3 kN. The end is carried round all "
    "parts in tight turns and made fast with half hitches; the turns hold it, not the knot.",
    "A rope is retired for cut or pulled strands, hard, glazed or melted places, a sleeve worn through, an eye or a tail that has "
    "moved, and at its age; a stub for cracks or too little rod above its bolt, measured with the eye off.",
    "Sail gently, take up, measure, write it into Log; again after the first hard sail, then as Boat says.",
)

UNCHECKED = (
    "What Balance leaves out: a mast that pumps or that its sails bend, a hull that gives, pulls of halyards and sheets. A mast whose "
    "wall and moments of inertia are blank is not balanced at all, and its stays say so.",
    "A length that comes from points alone. Measure the wire that comes down as well, pulled straight, before any rope is cut; what "
    "both agree on is typed under Length, measured.",
    "How the lashing's end is made fast, and what joins the stays where a backstay splits.",
    "Age and condition of wire that stays, and its terminals: it is looked at and renewed by its own rules.",
    "Fatigue and crevice corrosion of a bolt that stands out from the mast: it is renewed with the rope.",
    "One leg of a split backstay alone, a stub that is lost in a gust: the blow of the fall is in no safety factor.",
    "The strength of the rod while its crushing strength is blank in Library, how it is built, and the end plate.",
    "What holds a ring or a pin on the mast, and a pin itself; of a ring only the maker's working load.",
    "Spreaders, the rope over a spreader's tip, and the mast as a column.",
    "The mast's wall while it or its proof stress is blank, and a chainplate that is blank; the check says so. How a chainplate "
    "is fastened to the hull, unless a surveyor says it.",
    "The figures of the Library: a wrong certificate makes a wrong rig.",
)

TYPING = (
    "White framed cells are yours; grey ones are calculated. A row counts when its name is filled.",
    'A number is in the unit of its column. A text with a unit is read too, on Boat as well: "3/8 in", "1 1/4 in", "5 ft 3 in", '
    '"12,5 mm", "450 kgf". Without a unit, 1 1/4 becomes 1.25 mm and 3/8 becomes a date.',
    'A formula may stand wherever a number goes, such as =RIG.READ("4 1/2 in";"mm"): the office asks first, and OK takes it.',
    "An override has a column of its own and wins over the boat's default. Never type over a formula.",
    "Stays, Stubs and Masts show what is typed always and the results; the rest is folded. The columns behind say what each fold holds; the + above opens it, "
    "and an opened block is printed, too. Columns headed Yours are for whatever you like.",
    "Insert columns of your own wherever you like. One beside a white cell takes over its limits: Data > Validity, allow all values. For more rows, take Add Rows in the menu Rigging; the last ready row "
    "stays empty.",
    "Sort, filter, rename and hide as you like; names, not positions, tie the sheets together. After renaming, Put Right in Check the Schedule takes along what uses the name.",
)

SHEET = Sheet(
    "Read first",
    "Standing rigging of spliced HMPE rope on stubs of glass-epoxy rod: survey, size, fit, make, buy, look after.",
    lines=(
        ("What this is not", ""),
        *(("", line) for line in CAUTIONS),
        ("What is not checked", ""),
        *(("", line) for line in UNCHECKED),
        ("How to start", ""),
        *(("", line) for line in START),
        ("In what order", ""),
        *(("", line) for line in ORDER_OF_WORK),
        ("How to type", ""),
        *(("", line) for line in TYPING),
        ("Version", ""),
        ("", f"Loftsheet {__version__}. The calculations need the Loftsheet extension. An office without it shows what was last worked out, and #NAME? for whatever is worked out anew there, so change nothing in it; with the extension all comes back. A cell of your own with one of its functions needs a number format other than General for that. To a supplier hand the supplier's file, not this book."),
    ),
    landscape=False,
    widths=(185,),
)
