package padward.breakout.text;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.design.Attachment;
import padward.design.Occupant;
import padward.design.PadWiring;
import padward.fabric.Pad;
import padward.unblock.Explanation;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.weigh.Removal;

/** Answers in words. */
public final class AnswerText {
    private AnswerText() {}

    /** The answer as a sentence or two that a person understands. */
    public static String sentence(Answer answer) {
        String text;
        if (answer instanceof Answer.Open open) {
            text = open(open);
        } else if (answer instanceof Answer.Blocked blocked) {
            text = blocked(blocked);
        } else {
            text = noRoute((Answer.NoRoute) answer) + nearby((Answer.NoRoute) answer);
        }
        return text + answer.disconnected().map(AnswerText::disconnected).orElse("");
    }

    /** The sentence without the word that it begins with, for places that show the word apart. */
    public static String explanation(Answer answer) {
        String text = sentence(answer);
        String rest = text.substring(text.indexOf(": ") + 2);
        boolean beginsWithName = rest.startsWith(answer.question().net().name());
        return beginsWithName ? rest : Character.toUpperCase(rest.charAt(0)) + rest.substring(1);
    }

    /** One word for the kind of answer. */
    public static String word(Answer answer) {
        if (answer instanceof Answer.Open) {
            return "Open";
        }
        return answer instanceof Answer.Blocked ? "Blocked" : "No way";
    }

    private static String open(Answer.Open open) {
        Route route = open.route();
        boolean already = route.branchHop() == route.hops().size() - 1;
        if (already) {
            return String.format(
                    "Open: %s is on %s already, %s after its driver.",
                    netName(open), padText(open.question()), route.total().toText());
        }
        return String.format(
                "Open: %s reaches %s in %s, over %s from %s.",
                netName(open),
                padText(open.question()),
                route.total().toText(),
                hops(route),
                route.hops().get(route.branchHop()).name());
    }

    private static String blocked(Answer.Blocked blocked) {
        String beginning =
                String.format(
                        "Blocked: no free way leads from %s to %s. ",
                        netName(blocked), padText(blocked.question()));
        return beginning + blocked.why().map(w -> why(blocked, w)).orElseGet(() -> quick(blocked));
    }

    private static String quick(Answer.Blocked blocked) {
        String obstacles =
                blocked.obstacles().stream()
                        .map(AnswerText::obstacle)
                        .collect(Collectors.joining("; "));
        return String.format(
                "On the best way, %s. Once %s freed, the signal arrives in %s.",
                obstacles,
                blocked.obstacles().size() == 1 ? "it is" : "they are",
                blocked.route().total().toText());
    }

    /** What must go, what it means, how sure that is. */
    private static String why(Answer.Blocked blocked, WhyBlocked why) {
        Explanation explanation = why.explanation();
        List<String> parts = new ArrayList<>(WhyText.mustGo(blocked, explanation));
        List<Removal> removals = explanation.best().removals();
        Set<Occupant> occupants = new HashSet<>();
        explanation.chokepoints().forEach(c -> c.occupant().ifPresent(occupants::add));
        boolean told = removals.stream().allMatch(r -> occupants.contains(r.occupant()));
        if (!told) {
            String obstacles =
                    blocked.obstacles().stream()
                            .map(AnswerText::obstacle)
                            .collect(Collectors.joining("; "));
            parts.add("On the best way, " + obstacles + ".");
        }
        for (Removal removal : removals) {
            boolean clear = told && removals.size() == 1 && parts.size() == 1;
            String name = clear ? "It" : WhyText.who(removal.occupant());
            parts.add(sentence(name + " is " + WhyText.consequence(blocked, removal)));
        }
        parts.add(
                String.format(
                        "Once %s, the signal arrives in %s.",
                        removals.size() == 1 ? "it is out of the way" : "they are out of the way",
                        blocked.route().total().toText()));
        return String.join(" ", parts);
    }

    private static String sentence(String clause) {
        return Character.toUpperCase(clause.charAt(0)) + clause.substring(1) + ".";
    }

    /** An obstacle as a clause: who holds what, where. */
    public static String obstacle(Obstacle obstacle) {
        return WhyText.who(obstacle.occupant())
                + (obstacle.withItsNets() ? ", with its nets, holds " : " holds ")
                + obstacle.resourceKind()
                + " "
                + obstacle.resource()
                + more(obstacle);
    }

    private static String more(Obstacle obstacle) {
        boolean wires = obstacle.resourceKind().equals("wire");
        int others = obstacle.hops().size() - 1;
        if (!wires || others == 0) {
            return "";
        }
        return " and " + others + " more";
    }

    private static String noRoute(Answer.NoRoute noRoute) {
        String pad = padText(noRoute.question());
        String net = netName(noRoute);
        return switch (noRoute.reason()) {
            case INPUT_ONLY_PAD ->
                    "No way: "
                            + pad
                            + " is input-only; it has no driver, so no net can go out on it.";
            case NO_FITTING_SETTING ->
                    "No way: no setting of the driver at "
                            + pad
                            + " is for its bank's voltage; see the cautions.";
            case NEVER_LEAVES_ITS_SITE ->
                    "No way: "
                            + net
                            + " never leaves its cell; no switch leads from its pins to any wire.";
            case CLOCK_WIRES_ONLY ->
                    "No way: clock "
                            + net
                            + " runs on clock wires only, which lead to no pad. "
                            + noRoute.detail();
            case DEDICATED_WIRES ->
                    "No way: "
                            + net
                            + " gets on dedicated wires only, which lead to no pad. "
                            + noRoute.detail();
            case NOTHING_LEADS_TO_PAD -> "No way: no wire of the fabric leads to " + pad + ".";
            case PAD_OUT_OF_REACH ->
                    "No way: even on an empty fabric no way leads from " + net + " to " + pad + ".";
        };
    }

    private static String nearby(Answer.NoRoute noRoute) {
        if (noRoute.nearby().isEmpty()) {
            return "";
        }
        return noRoute.nearby().stream()
                .map(
                        s ->
                                s.net().name()
                                        + " ("
                                        + s.difference()
                                        + ", "
                                        + word(s.answer()).toLowerCase(Locale.ROOT)
                                        + ")")
                .collect(Collectors.joining(", ", " Near it, these have one: ", "."));
    }

    private static String disconnected(DisconnectedBranch disconnected) {
        int also = disconnected.vertices().size() - 1;
        return String.format(
                " Port %s lets go of the pad%s; net %s keeps everything else.",
                disconnected.port().name(),
                also <= 0 ? "" : " and of " + also + " vertices that served it alone",
                disconnected.net().name());
    }

    private static String hops(Route route) {
        int count = route.hops().size() - 1 - route.branchHop();
        return count == 1 ? "1 new hop" : count + " new hops";
    }

    private static String netName(Answer answer) {
        return answer.question().net().name();
    }

    /** What the design would lose at the most, for a column: {@code nothing}, {@code 3 ends}. */
    public static String wouldLose(Answer answer) {
        if (!(answer instanceof Answer.Blocked blocked)) {
            return "";
        }
        if (blocked.obstacles().stream().allMatch(Obstacle::removable)) {
            return "nothing";
        }
        int ends = blocked.obstacles().stream().mapToInt(Obstacle::wouldLose).sum();
        return ends == 1 ? "1 end" : ends + " ends";
    }

    /** What the board has on a question's pad, for a column. */
    public static String onBoard(Question question) {
        return question
                .design()
                .board()
                .findWiring(question.pad())
                .map(PadWiring::attachments)
                .orElse(List.of())
                .stream()
                .map(Attachment::toText)
                .collect(Collectors.joining(", "));
    }

    /** A pad with its package pin and what the board calls it. */
    public static String padText(Question question) {
        Pad pad = question.padValue();
        List<String> known = new ArrayList<>();
        if (!pad.packagePin().isEmpty()) {
            known.add("pin " + pad.packagePin());
        }
        question.design()
                .board()
                .findWiring(question.pad())
                .map(PadWiring::net)
                .filter(n -> !n.isEmpty())
                .ifPresent(n -> known.add("board net " + n));
        return "pad " + pad.name() + (known.isEmpty() ? "" : " (" + String.join(", ", known) + ")");
    }
}
