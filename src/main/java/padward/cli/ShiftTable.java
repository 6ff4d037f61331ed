package padward.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.OptionalInt;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Trial;
import padward.timing.SinkShift;

/** What edits do to the sinks that the touched nets had before. */
final class ShiftTable {
    private ShiftTable() {}

    /** Prints the sinks that are slowed or have a required time; nothing when there is nothing. */
    static void print(Design design, List<Edit> edits, PrintWriter out) {
        List<SinkShift> all = SinkShift.between(design, Trial.of(design, edits));
        List<SinkShift> told =
                all.stream().filter(s -> s.laterPs() != 0 || s.slackAfterPs().isPresent()).toList();
        boolean loads = !design.fabric().info().electrical().isUnknown();
        if (told.isEmpty()) {
            if (loads) {
                out.println("None of the " + all.size() + " other sinks of these nets is slowed.");
            }
            return;
        }
        out.println("Other sinks of these nets:");
        TextTable table = new TextTable("net", "sink", "before", "after", "later by", "slack");
        for (SinkShift shift : told) {
            OptionalInt slack = shift.slackAfterPs();
            String missed = shift.breaksTiming() ? ", missed now" : "";
            table.row(
                    shift.net(),
                    shift.sink(),
                    shift.before().toText(),
                    shift.after().toText(),
                    shift.laterPs() + " ps",
                    slack.isPresent() ? slack.getAsInt() + " ps" + missed : "");
        }
        table.print(out);
    }
}
