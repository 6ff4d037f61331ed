package padward.cli.output;

import java.io.PrintWriter;
import java.util.List;
import java.util.OptionalInt;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.timing.SinkDelayChange;

/** The effect of edits on the other sinks of the nets that they change. */
public final class SinkDelayTable {
    private SinkDelayTable() {}

    /** Prints the sinks that get slower or have a required time. */
    public static void print(Design design, List<Edit> edits, PrintWriter out) {
        List<SinkDelayChange> all = SinkDelayChange.between(design, Outcome.apply(design, edits));
        List<SinkDelayChange> listed =
                all.stream()
                        .filter(
                                s ->
                                        s.laterPs() != 0
                                                || s.earlierPs() > 0
                                                || s.slackAfterPs().isPresent())
                        .toList();
        boolean loads = !design.fabric().info().electrical().isUnknown();
        if (listed.isEmpty()) {
            if (loads) {
                out.println(
                        "None of the " + all.size() + " other sinks of these nets gets slower.");
            }
            return;
        }
        out.println("Other sinks of these nets:");
        TextTable table = new TextTable("net", "sink", "before", "after", "later by", "slack");
        for (SinkDelayChange delayChange : listed) {
            OptionalInt slack = delayChange.slackAfterPs();
            String missed = delayChange.breaksTiming() ? ", violated now" : "";
            table.row(
                    delayChange.net(),
                    delayChange.sink(),
                    delayChange.before().toText(),
                    delayChange.after().toText(),
                    delayChange.laterPs() + " ps",
                    slack.isPresent() ? slack.getAsInt() + " ps" + missed : "");
        }
        table.print(out);
        int earlier = listed.stream().mapToInt(SinkDelayChange::earlierPs).max().orElse(0);
        if (earlier > 0) {
            out.println(
                    "Some arrive earlier, by up to "
                            + earlier
                            + " ps at the fast corner: check hold.");
        }
    }
}
