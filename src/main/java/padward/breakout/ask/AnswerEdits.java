package padward.breakout.ask;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Port;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;
import padward.fabric.Pad;
import padward.fabric.pad.DriverSetting;

/** The edits that make an answer come true: make room, then bring the net out. */
public final class AnswerEdits {
    private AnswerEdits() {}

    /** Whether the net is on the pad already, so that there is nothing to bring out. */
    public static boolean isThere(Answer.FreeRoute free) {
        return free.route().branchHop() == free.route().hops().size() - 1;
    }

    /** The edits of an answer with a route over what is free. */
    public static List<Edit> of(Answer.FreeRoute free) {
        List<Edit> edits = new ArrayList<>();
        free.disconnected().ifPresent(l -> edits.add(l.toEdit()));
        return isThere(free)
                ? otherDriver(free.question())
                : broughtOut(free.question(), edits, free.route());
    }

    /** What changes the driver of a pad on which the net is already, if that is wanted. */
    private static List<Edit> otherDriver(Question question) {
        Optional<Port> port = question.design().findPortOn(question.pad());
        return port.isPresent()
                ? driver(
                        port.get().name(),
                        DriverFit.standing(question.design(), question.pad()),
                        DriverFit.of(question).setting())
                : List.of();
    }

    /** The edits of one of a blocked answer's options to unblock. */
    public static List<Edit> of(Answer.Blocked blocked, WhyBlocked.Option option) {
        List<Edit> edits = new ArrayList<>(option.option().edits(blocked.disconnected()));
        return broughtOut(blocked.question(), edits, option.route());
    }

    /**
     * Adds the route itself. A port that only reads the pad is disconnected too, together with the
     * net that it drives.
     */
    private static List<Edit> broughtOut(Question question, List<Edit> edits, Route route) {
        Design design = question.design();
        design.findPortOn(question.pad())
                .map(p -> new Edit.DisconnectPort(p.name()))
                .ifPresent(
                        go -> {
                            edits.removeIf(e -> isDrivenBy(design, e, go.port()));
                            if (!edits.contains(go)) {
                                edits.add(0, go);
                            }
                        });
        edits.addAll(
                breakOut(question, route, DriverFit.standing(question.design(), question.pad())));
        return edits;
    }

    private static boolean isDrivenBy(Design design, Edit edit, String port) {
        return edit instanceof Edit.RemoveNet free
                && design.findNet(free.net())
                        .map(n -> design.textOf(n.driver()).equals("port " + port))
                        .orElse(false);
    }

    /**
     * The edits that bring a net out by a route, under a port name that the design has not yet: the
     * route itself; another setting of the driver, where the one that stands is not the one to be
     * used; the tie of the enable, where the driver would not be on.
     *
     * @param standing name of the setting that the pad's driver has before
     */
    public static List<Edit> breakOut(Question question, Route route, String standing) {
        List<Integer> vertices = new ArrayList<>();
        route.hops().stream().skip(route.branchHop()).forEach(h -> vertices.add(h.vertex()));
        String port = portName(question);
        List<Edit> result = new ArrayList<>();
        result.add(
                new Edit.BreakOut(
                        question.net().name(),
                        port,
                        question.padValue().name(),
                        standing,
                        vertices));
        result.addAll(driver(port, standing, route.setting()));
        if (tiesEnable(question)) {
            result.add(new Edit.TieEnable(port));
        }
        return result;
    }

    private static List<Edit> driver(String port, String standing, Optional<DriverSetting> wanted) {
        return wanted.map(DriverSetting::name)
                .filter(s -> !s.equals(standing))
                .<List<Edit>>map(s -> List.of(new Edit.SetDriver(port, s)))
                .orElse(List.of());
    }

    /** Whether the pad's enable is tied on for the net, because the driver would not be on. */
    public static boolean tiesEnable(Question question) {
        return !question.isThere() && !question.padValue().drivesUnasked();
    }

    /** Whether an edit is part of bringing a net out, and does not make room for it. */
    public static boolean bringsOut(Edit edit) {
        return edit instanceof Edit.BreakOut
                || edit instanceof Edit.SetDriver
                || edit instanceof Edit.TieEnable;
    }

    /** A name that says which pad it is, and that no port of the design has. */
    private static String portName(Question question) {
        Design design = question.design();
        Pad pad = question.padValue();
        Optional<String> header =
                design.board()
                        .findWiring(question.pad())
                        .flatMap(PadWiring::findLeadPlace)
                        .map(Attachment::toShortText);
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
