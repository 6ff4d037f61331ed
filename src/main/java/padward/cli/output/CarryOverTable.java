package padward.cli.output;

import java.io.PrintWriter;
import padward.breakout.verify.CarryOver;
import padward.change.Edit;
import padward.change.Ledger;

/** Reports which entries of a ledger fit another run of the design. */
public final class CarryOverTable {
    private CarryOverTable() {}

    public static void print(Ledger kept, CarryOver carried, PrintWriter out) {
        out.println(
                "The ledger was made on another run of "
                        + kept.design()
                        + ": every entry is checked against this one.");
        carried.outcomes().forEach(o -> print(o, out));
        out.println();
    }

    private static void print(CarryOver.Outcome outcome, PrintWriter out) {
        String entry = "Entry " + (outcome.index() + 1) + ", " + outcome.entry().what() + ": ";
        if (outcome.fits()) {
            out.println(entry + "fits as it is.");
            return;
        }
        out.println(entry + "no longer fits:");
        outcome.reasons().forEach(r -> out.println("  - " + r));
        for (CarryOver.Line line : outcome.lines()) {
            print(line, out);
        }
    }

    private static void print(CarryOver.Line line, PrintWriter out) {
        String what = "  " + line.net() + " on " + line.pad() + ": ";
        if (line instanceof CarryOver.Line.Found found) {
            int hops = found.route().hops().size() - 1;
            out.println(
                    what
                            + "a new route of "
                            + hops
                            + " hops, "
                            + found.route().total().toText()
                            + " to the pin. Edits:");
            found.edits().stream().map(Edit::toText).forEach(e -> out.println("    " + e));
        } else if (line instanceof CarryOver.Line.Left left) {
            out.println(what + "left out. " + left.reason());
        } else {
            out.println(what + "its old route still fits.");
        }
    }
}
