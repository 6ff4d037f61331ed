package padward.breakout;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.clearance.Clearance;
import padward.design.Design;
import padward.design.Edit;
import padward.design.PadWiring;
import padward.fabric.Corner;
import padward.fabric.DriverSetting;
import padward.fabric.Pad;

/** The edits that make an answer come true: make room, then bring the net out. */
public final class Keeping {
    private Keeping() {}

    /** The edits of an open answer. */
    public static List<Edit> of(Answer.Open open) {
        List<Edit> edits = new ArrayList<>();
        open.letGo().ifPresent(l -> edits.add(l.toEdit()));
        edits.add(breakOut(open.question(), open.way()));
        return edits;
    }

    /** The edits of one of a blocked answer's clearances. */
    public static List<Edit> of(Answer.Blocked blocked, WhyBlocked.Option option) {
        Clearance clearance = option.clearance();
        List<Edit> edits = new ArrayList<>(clearance.edits(blocked.letGo()));
        edits.add(breakOut(blocked.question(), option.way()));
        return edits;
    }

    /** The edit that lays one line of a group, on a design that has the others already. */
    static Edit breakOut(Design design, Bus.Line line) {
        return breakOut(new Question(design, line.net(), line.pad(), Corner.SLOW), line.way());
    }

    private static Edit breakOut(Question question, Way way) {
        List<Integer> vertices = new ArrayList<>();
        way.hops().stream().skip(way.branchHop()).forEach(h -> vertices.add(h.vertex()));
        return new Edit.BreakOut(
                question.net().name(),
                portName(question),
                question.padValue().name(),
                way.setting().map(DriverSetting::name).orElse(""),
                vertices);
    }

    /** A name that tells the pad, and that no port of the design has. */
    private static String portName(Question question) {
        Design design = question.design();
        Pad pad = question.padValue();
        Optional<String> header =
                design.board()
                        .findWiring(question.pad())
                        .flatMap(PadWiring::findLeadPlace)
                        .map(a -> a.name() + (a.pin().isEmpty() ? "" : "." + a.pin()));
        String place = header.orElse(pad.packagePin().isEmpty() ? pad.name() : pad.packagePin());
        String name = "out_" + place;
        int number = 2;
        String unique = name;
        while (isTaken(design, unique)) {
            unique = name + "_" + number++;
        }
        return unique;
    }

    private static boolean isTaken(Design design, String name) {
        return design.ports().stream().anyMatch(p -> p.name().equals(name));
    }
}
