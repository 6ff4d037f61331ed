package padward.breakout.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import padward.base.Listing;
import padward.breakout.ask.Answer;
import padward.change.Edit;
import padward.design.Occupant;
import padward.unblock.UnblockExplanation;
import padward.unblock.move.Consequence;
import padward.unblock.move.DelayChange;
import padward.unblock.release.LostEndpoint;
import padward.unblock.weigh.Removal;
import padward.unblock.weigh.UnblockOption;
import padward.unblock.why.Chokepoint;

/** Explanations in words. */
public final class WhyText {
    private static final int MOST_NAMED = 4;

    private WhyText() {}

    /** An occupant with what it is: {@code cell pump/hold}. */
    public static String who(Occupant occupant) {
        return (occupant instanceof Occupant.ByCell ? "cell " : "net ") + occupant.name();
    }

    /** One sentence for each chokepoint in use. */
    public static List<String> mustGo(UnblockExplanation explanation) {
        List<String> result = new ArrayList<>();
        for (Chokepoint choke : explanation.chokepoints()) {
            choke.occupant()
                    .ifPresent(
                            occupant ->
                                    result.add(
                                            choke.resourceKind().equals("pad")
                                                    ? capital(
                                                            who(occupant) + " uses the pad itself.")
                                                    : "Every route must go through "
                                                            + choke.resourceKind()
                                                            + " "
                                                            + choke.resource()
                                                            + ", which is used by "
                                                            + who(occupant)
                                                            + "."));
        }
        return result;
    }

    /** What every free route passes apart from the pad itself, as a sentence; empty for nothing. */
    public static String everyFreeRoute(Answer.FreeRoute open) {
        List<String> names =
                open.chokepoints().stream()
                        .filter(c -> !c.resourceKind().equals("pad"))
                        .map(c -> c.resourceKind() + " " + c.resource())
                        .toList();
        return names.isEmpty() ? "" : "Every free route goes through " + named(names) + ".";
    }

    static String capital(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }

    /** The narrowest place, as a sentence; empty when none is known. */
    public static String oneOfThese(UnblockExplanation explanation) {
        List<Occupant> used = explanation.oneOfThese();
        if (used.isEmpty()) {
            return "";
        }
        if (used.size() == 1) {
            return "Every route crosses a resource used by " + who(used.get(0)) + ".";
        }
        return "Every route crosses a resource used by one of these: "
                + named(used.stream().map(WhyText::who).toList())
                + ".";
    }

    /** How sure the number of obstacles is. */
    public static String proof(UnblockExplanation explanation) {
        int count = explanation.best().removals().size();
        if (explanation.provenFewest()) {
            return count == 1
                    ? "Proven minimum: at least one obstacle must go."
                    : "Proven minimum: fewer than " + count + " obstacles are not enough.";
        }
        return "Not proven minimal: at least "
                + explanation.atLeast()
                + " must go, "
                + count
                + " are enough.";
    }

    /**
     * What clearing an obstacle means, as a clause that begins with one of {@code removable},
     * {@code movable} and {@code loses function}, and a colon.
     */
    public static String consequence(Answer.Blocked blocked, Removal removal) {
        Consequence consequence = removal.consequence();
        if (consequence instanceof Consequence.Removable) {
            return "removable: " + removable(blocked, removal);
        }
        if (consequence instanceof Consequence.Movable movable) {
            return "movable: " + movable(removal, movable);
        }
        return "loses function: no other " + losesFunction(removal, "");
    }

    /** The same as a sentence about the obstacle. */
    static String consequenceSentence(Answer.Blocked blocked, Removal removal) {
        String name = who(removal.occupant());
        Consequence consequence = removal.consequence();
        String text;
        if (consequence instanceof Consequence.Removable) {
            text = name + " " + removable(blocked, removal);
        } else if (consequence instanceof Consequence.Movable movable) {
            text = name + " " + movable(removal, movable);
        } else {
            text = "no other " + losesFunction(removal, " for " + name);
        }
        return capital(text) + ".";
    }

    private static String losesFunction(Removal removal, String forWhom) {
        List<LostEndpoint> lost = ((Consequence.LosesFunction) removal.consequence()).lost();
        boolean cell = removal.occupant() instanceof Occupant.ByCell;
        String text = (cell ? "place was found" : "route was found") + forWhom;
        if (lost.isEmpty()) {
            return text;
        }
        return text
                + (lost.size() == 1
                        ? "; 1 endpoint would lose its signal: "
                        : "; " + lost.size() + " endpoints would lose their signals: ")
                + named(lost.stream().map(LostEndpoint::toText).toList());
    }

    private static String removable(Answer.Blocked blocked, Removal removal) {
        boolean enableOnly = removal.vertices().isEmpty();
        String port = blocked.disconnected().map(l -> l.port().name()).orElse("");
        if (enableOnly) {
            return "only enables this pad's driver" + (port.isEmpty() ? "" : " for port " + port);
        }
        return port.isEmpty() ? "feeds nothing" : "only serves port " + port;
    }

    private static String movable(Removal removal, Consequence.Movable movable) {
        String means =
                switch (movable.means()) {
                    case REROUTE ->
                            removal.occupant() instanceof Occupant.ByCell
                                    ? "can stay if its net is rerouted"
                                    : "can be rerouted";
                    case PASS_THROUGH ->
                            "can stay; the signal passes through its site, over pins that the cell"
                                    + " does not use";
                    case RELOCATE -> "can be relocated to site " + otherSite(movable);
                };
        String how = means + swaps(movable);
        List<DelayChange> delayChanges = movable.delayChanges();
        if (delayChanges.isEmpty()) {
            return how;
        }
        List<String> parts = new ArrayList<>();
        delayChanges.stream().limit(MOST_NAMED).forEach(s -> parts.add(delayChange(s, removal)));
        int more = delayChanges.size() - MOST_NAMED;
        if (more > 0) {
            parts.add(more == 1 ? "1 more net is rerouted" : more + " more nets are rerouted");
        }
        return how + "; " + String.join("; ", parts);
    }

    /** Ends of nets that go to other pins. */
    private static String swaps(Consequence.Movable movable) {
        return movable.edits().stream()
                .flatMap(e -> e.reroutes().stream())
                .flatMap(r -> r.swaps().stream().map(s -> "; net " + r.net() + " goes " + s))
                .collect(Collectors.joining());
    }

    private static String otherSite(Consequence.Movable movable) {
        return movable.edits().stream()
                .filter(e -> e instanceof Edit.RelocateCell)
                .map(e -> ((Edit.RelocateCell) e).site())
                .collect(Collectors.joining());
    }

    private static String delayChange(DelayChange delayChange, Removal removal) {
        boolean itself = delayChange.net().equals(removal.occupant().name());
        String subject = itself ? "" : "net " + delayChange.net() + " is rerouted, ";
        boolean same = delayChange.after().equals(delayChange.before());
        return subject
                + "arrival at "
                + delayChange.sink()
                + (same ? " unchanged, " : " ")
                + delayChange.after().toText()
                + (same ? "" : " instead of " + delayChange.before().toText())
                + slack(delayChange)
                + earlier(delayChange);
    }

    /** A signal that arrives earlier can break a hold time, which nobody else would look at. */
    private static String earlier(DelayChange delayChange) {
        return delayChange.earlierPs() == 0
                ? ""
                : String.format(
                        Locale.ROOT,
                        ", earlier by up to %d ps at the fast corner (at %s): check hold there",
                        delayChange.earlierPs(),
                        delayChange.earlierSink());
    }

    private static String slack(DelayChange delayChange) {
        OptionalInt after = delayChange.slackAfterPs();
        if (after.isEmpty()) {
            return "";
        }
        String text =
                String.format(
                        Locale.ROOT,
                        ", slack %d ps instead of %d ps",
                        after.getAsInt(),
                        delayChange.slackBeforePs().orElse(0));
        return delayChange.breaksTiming() ? text + ", too late" : text;
    }

    /** One option to unblock as a phrase: {@code remove cell A, reroute net B}. */
    public static String option(UnblockOption option) {
        return option.removals().stream()
                .map(r -> verb(r, "remove ", "reroute ", "pass through ", "relocate "))
                .collect(Collectors.joining(", "));
    }

    /** What is done about one obstacle, as a subject: {@code removing cell A}. */
    static String doing(Removal removal) {
        return verb(
                removal, "removing ", "rerouting ", "passing the signal through ", "relocating ");
    }

    private static String verb(
            Removal removal, String remove, String reroute, String through, String relocate) {
        String name = who(removal.occupant());
        if (!(removal.consequence() instanceof Consequence.Movable movable)) {
            return remove + name;
        }
        return switch (movable.means()) {
            case REROUTE ->
                    reroute
                            + (removal.occupant() instanceof Occupant.ByCell ? "the net of " : "")
                            + name;
            case PASS_THROUGH -> through + name;
            case RELOCATE -> relocate + name;
        };
    }

    /** The first few of a list, and how many more. */
    static String named(List<String> names) {
        return Listing.first(names, MOST_NAMED);
    }
}
