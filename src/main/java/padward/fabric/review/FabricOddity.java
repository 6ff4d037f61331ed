package padward.fabric.review;

/** What is valid in a fabric but seldom meant. */
public enum FabricOddity implements Oddity {
    /** Out pins that something leads to. */
    ENTERED_OUT_PINS("out pins that something leads to"),
    /** In pins that lead to something. */
    LEAVING_IN_PINS("in pins that lead to something"),
    /** Pads that can drive, but nothing leads to them. */
    UNFED_PADS("pads that can drive, but nothing leads to them"),
    /** Pads that no signal of a cell reaches, even on the empty fabric. */
    PADS_APART("pads that no signal of a cell reaches, even on the empty fabric"),
    /** Pads for signals that only clock wires, or what is unusable, lead to. */
    PADS_BY_CLOCK_ONLY("pads for signals that only clock wires, or what is unusable, lead to"),
    /** Input pads that lead nowhere. */
    BLIND_PADS("input pads that lead nowhere"),
    /** Pads with the same IO register site before their drivers. */
    SHARED_REGISTERS("pads with the same IO register site before their drivers"),
    /** Pads without a package pin. */
    UNNAMED_PINS("pads without a package pin"),
    /** Wires that nothing drives. */
    UNDRIVEN_WIRES("wires that nothing drives"),
    /** Wires that lead nowhere. */
    DEAD_WIRES("wires that lead nowhere"),
    /** Wires that span other tiles than nearly all of their kind. */
    ODD_SPANS("wires that span other tiles than nearly all of their kind"),
    /** Sites that accept no kind of cell. */
    SITES_WITHOUT_CELLS("sites that accept no kind of cell"),
    /** Sites whose pins are joined to nothing. */
    SITES_CUT_OFF("sites whose pins are joined to nothing"),
    /** Sites without a pin that a lookup table or register which they accept has. */
    SITES_WITHOUT_PINS("sites without a pin that a lookup table or register which they accept has"),
    /** Pins that are alike with no other pin of their site or part. */
    LONE_ALIKE_PINS("pins that are alike with no other pin of their site or part"),
    /** Alike pins that a cell which their site accepts uses differently. */
    UNLIKE_ALIKE_PINS("alike pins that a cell which their site accepts uses differently"),
    /** Pins of a site that have the same one wire, so they carry one net. */
    PINS_SHARING_A_WIRE("pins of a site that have the same one wire, so they carry one net"),
    /** Switch groups of one switch, which exclude nothing. */
    SINGLE_SWITCH_GROUPS("switch groups of one switch, which exclude nothing"),
    /** No kind of cell holds state, so no endpoint can be named. */
    NO_STATE("no kind of cell holds state, so no endpoint can be named"),
    /** No driver settings, so the delay of pads is not known. */
    NO_SETTINGS("no driver settings, so the delay of pads is not known"),
    /** Fast and slow delays are the same everywhere. */
    EQUAL_CORNERS("fast and slow delays are the same everywhere"),
    /** Connections that take no time. */
    NO_DELAY("connections that take no time");

    private final String what;

    FabricOddity(String what) {
        this.what = what;
    }

    @Override
    public String what() {
        return what;
    }
}
