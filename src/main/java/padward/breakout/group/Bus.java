package padward.breakout.group;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Predicate;
import padward.base.Progress;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;
import padward.route.flow.OneMoreSearch;
import padward.route.negotiate.RoutingRound;
import padward.timing.Arrival;
import padward.timing.ExternalLineDelay;
import padward.timing.OutputPath;
import padward.timing.PairSkew;
import padward.timing.ValidTimes;

/**
 * Several nets brought out at once: a pad for each, and routes without a common wire. First the
 * routes of each net to all pads are searched alone; then pads are matched to nets; then all nets
 * are routed together by negotiated congestion. Nets that find no route together with the others
 * are listed.
 *
 * @param lines the nets that are served, in the requested order
 * @param left the nets that are not served, with the reason
 * @param edits the edits that bring the nets out, in order
 * @param alonePs sum over the lines of the shortest delay to their pads, each routed alone, slow
 *     corner, ps: a lower bound of any common solution on these pads
 * @param proof what is proven about the number of nets; empty when nothing is
 * @param bound how many nets can be served at the most, where it is not proven that no more can be
 */
public record Bus(
        List<Line> lines,
        List<Left> left,
        List<Edit> edits,
        long alonePs,
        Optional<Proof> proof,
        Optional<Bound> bound) {
    /** Copies the lists. */
    public Bus {
        lines = List.copyOf(lines);
        left = List.copyOf(left);
        edits = List.copyOf(edits);
    }

    /** A group of which no bound is known. */
    public Bus(
            List<Line> lines,
            List<Left> left,
            List<Edit> edits,
            long alonePs,
            Optional<Proof> proof) {
        this(lines, left, edits, alonePs, proof, Optional.empty());
    }

    /** Whether its search was stopped. */
    public boolean isStopped() {
        return bound.filter(Bound::stopped).isPresent();
    }

    /** Whether it is proven why not all are served, but not known what lets one more be served. */
    public boolean isUnexplained() {
        return proof.filter(p -> p.bottleneck().isPresent() && p.oneMore().isEmpty()).isPresent();
    }

    /** The same with what is proven about it. */
    Bus proven(Proof what) {
        return new Bus(lines, left, edits, alonePs, Optional.of(what));
    }

    /** The same without a proof, but with what is known all the same. */
    Bus unproven(Bound known) {
        return new Bus(lines, left, edits, alonePs, Optional.empty(), Optional.of(known));
    }

    /**
     * What is known of a group that is not proven to be the best, because its search was stopped,
     * or because its nets could not keep to the flow: it can be used as it is, and no more than a
     * number of nets can be brought out.
     *
     * @param served how many nets have a route
     * @param atMost how many can have one together at the most, on pads that may be taken
     * @param of how many were asked about, without those that are already on one of the pads
     * @param stopped whether its search was stopped
     */
    public record Bound(int served, int atMost, int of, boolean stopped) {
        /** As a sentence without its full stop. */
        public String toText() {
            return served
                    + " of "
                    + of
                    + (of == 1 ? " net" : " nets")
                    + (stopped ? " so far; " : "; ")
                    + (atMost > served ? "at most " + atMost + " can be" : "no more can be")
                    + " brought out together";
        }
    }

    /**
     * No more nets can be served on these pads without removing something, and not as many at a
     * lower price, nor at the same price with a smaller sum of delays.
     *
     * @param bottleneck why not all are served; empty when all are
     * @param oneMore what lets one more be served; empty when all are, or that was not looked for
     */
    public record Proof(Optional<Bottleneck> bottleneck, Optional<OneMore> oneMore) {}

    /**
     * The most nets that can be served on some pads, and what that takes: what other aims are
     * measured by.
     *
     * @param served how many, proven
     * @param price steps of price of their pads, the least for so many
     * @param totalPs sum of their delays to the pins, rated load, slow corner, ps, the least for
     *     that number and price
     */
    public record Best(int served, int price, long totalPs) {
        /**
         * How far a choice is from it, as a sentence; empty where the choice is as good.
         *
         * @param lines how many nets the choice serves
         * @param itsPrice steps of price of its pads
         * @param itsPs sum of its delays
         * @param cause what makes the sum greater, as the subject of "takes"
         */
        Optional<String> distance(int lines, int itsPrice, long itsPs, String cause) {
            if (lines == served && itsPrice == price && itsPs <= totalPs) {
                return Optional.empty();
            }
            return Optional.of(sentence(lines, itsPrice, itsPs, cause));
        }

        private String sentence(int lines, int itsPrice, long itsPs, String cause) {
            if (lines < served) {
                return "Proven: "
                        + served
                        + " nets can be brought out together on these pads, "
                        + (served - lines)
                        + " more than by this aim; --aim most does that.";
            }
            if (itsPrice != price) {
                return "Proven: no more nets can be brought out together on these pads, but as many"
                        + " at a lower price; --aim most does that.";
            }
            return String.format(
                    Locale.ROOT,
                    "Proven: no more nets can be brought out together on these pads, and the least"
                            + " sum of slow-corner delays for so many is %.3f ns; %s takes %.3f"
                            + " ns, %.1f %% more.",
                    totalPs / 1000.0,
                    cause,
                    itsPs / 1000.0,
                    100.0 * (itsPs - totalPs) / Math.max(1, totalPs));
        }
    }

    /**
     * What must be removed so that one net more can be served.
     *
     * @param remove the fewest occupants that do, proven and tried; empty when none were found
     * @param atLeast how many must go at least; {@link OneMoreSearch.Fewest#NEVER} when no removal
     *     helps
     * @param portsKeepPads whether pads of the question were left out because ports have them
     */
    public record OneMore(List<Occupant> remove, int atLeast, boolean portsKeepPads) {
        /** Copies the list. */
        public OneMore {
            remove = List.copyOf(remove);
        }

        /** Whether no removal lets one more be served. */
        public boolean isNever() {
            return atLeast == OneMoreSearch.Fewest.NEVER;
        }

        /** As a clause. */
        public String toText() {
            if (isNever()) {
                return "no removal lets one more be served"
                        + (portsKeepPads ? " while all ports keep their pads" : "");
            }
            if (remove.isEmpty()) {
                return atLeast == 1
                        ? "for one more, at least one cell or net must be removed; whether one is"
                                + " enough is not known"
                        : "for one more, at least "
                                + atLeast
                                + " cells or nets must be removed; whether so few are enough is not"
                                + " known";
            }
            List<String> names =
                    remove.stream()
                            .map(o -> (o instanceof Occupant.ByCell ? "cell " : "net ") + o.name())
                            .toList();
            return "one more can be brought out once "
                    + String.join(" and ", names)
                    + (names.size() == 1 ? " is" : " are")
                    + " removed, and fewer are not enough";
        }
    }

    /** The nets that are not served, a clause for all that have the same reason. */
    public List<String> notServed() {
        Map<String, List<String>> byReason = new LinkedHashMap<>();
        left.forEach(
                l ->
                        byReason.computeIfAbsent(l.reason(), r -> new ArrayList<>())
                                .add(l.net().name()));
        return byReason.entrySet().stream()
                .map(e -> String.join(", ", e.getValue()) + ": " + e.getKey())
                .toList();
    }

    /**
     * A bottleneck: every free route of some nets to any of the pads passes one of fewer wires,
     * pins or pads.
     *
     * @param nets the nets
     * @param vertices the wires, pins and pads; fewer than nets
     * @param tiles the tiles that they lie in, in words: {@code tile column x3}; empty where they
     *     are pads
     * @param users the nets that use other wires in these tiles, which the nets could enter from
     *     where they get without passing the bottleneck; the one with the most such wires first
     */
    public record Bottleneck(
            List<Net> nets, List<Integer> vertices, Optional<String> tiles, List<Net> users) {
        /** Copies the lists. */
        public Bottleneck {
            nets = List.copyOf(nets);
            vertices = List.copyOf(vertices);
            users = List.copyOf(users);
        }

        /** The bottleneck as a short clause, without names. */
        public String inShort(Fabric fabric) {
            boolean one = nets.size() == 1;
            if (vertices.isEmpty()) {
                return nets.size() + (one ? " net has" : " nets have") + " no free route";
            }
            boolean anyPad = vertices.stream().anyMatch(v -> fabric.kind(v) == VertexKind.PAD);
            boolean anyWire = vertices.stream().anyMatch(v -> fabric.kind(v) == VertexKind.WIRE);
            boolean anyPin = vertices.stream().anyMatch(v -> fabric.kind(v) == VertexKind.PIN);
            List<String> kinds = new ArrayList<>();
            String plural = vertices.size() == 1 ? "" : "s";
            if (anyWire) {
                kinds.add("wire" + plural);
            }
            if (anyPin) {
                kinds.add("pin" + plural);
            }
            if (anyPad) {
                kinds.add("pad" + plural);
            }
            return nets.size()
                    + " nets have to share "
                    + vertices.size()
                    + " "
                    + String.join(" or ", kinds);
        }

        /** The bottleneck as a clause. */
        public String toText(Fabric fabric) {
            String who = CutPlace.named(nets.stream().map(Net::name).toList());
            if (vertices.isEmpty()) {
                return "no free route leads from " + who + " to any of the pads";
            }
            return "of the "
                    + nets.size()
                    + " nets "
                    + who
                    + " no more than "
                    + vertices.size()
                    + " can be brought out together: every free route of theirs passes "
                    + (vertices.size() == 1 ? "" : "one of ")
                    + CutPlace.named(vertices.stream().map(fabric::vertexName).toList())
                    + place(fabric);
        }

        /** Where it lies and who is there, after what it is. */
        private String place(Fabric fabric) {
            if (tiles.isEmpty()) {
                return "";
            }
            boolean anyPad = vertices.stream().anyMatch(v -> fabric.kind(v) == VertexKind.PAD);
            String what = vertices.size() == 1 ? "it lies" : "they lie";
            return "; "
                    + (anyPad ? "those that are not pads lie" : what)
                    + " in "
                    + tiles.get()
                    + usersText();
        }

        private String usersText() {
            return users.isEmpty()
                    ? ""
                    : ", where other wires that these nets could enter are used by "
                            + CutPlace.named(users.stream().map(Net::name).toList());
        }
    }

    /**
     * One net on its pad.
     *
     * @param net the net
     * @param pad index of its pad
     * @param route its route
     * @param standing name of the setting that the pad's driver has before
     */
    public record Line(Net net, int pad, Route route, String standing) {
        /** Its delay from the net's driver to the pad's driver. */
        Delay toPad() {
            return route.toPadVertex();
        }

        /** The line from the pad's driver on. */
        public OutputPath output(Design design, ExternalLineDelay external) {
            return OutputPath.of(design, pad, route.setting(), external);
        }

        /** Its delay to the instrument, at the load that is stated. */
        public Delay atInstrument(Design design, ExternalLineDelay external) {
            return toPad().plus(output(design, external).toInstrument());
        }

        /** The edits that bring the line out, on a design with the earlier lines applied. */
        List<Edit> breakOut(Design design) {
            Question question = new Question(design, net, pad, Corner.SLOW);
            return AnswerEdits.breakOut(question, route, standing);
        }
    }

    /**
     * A net that is not served.
     *
     * @param net the net
     * @param reason why, as a clause
     * @param unblockable whether removing occupants could help; found out only when somebody asks
     */
    public record Left(Net net, String reason, Predicate<Progress> unblockable) {
        /** The same where that is known. */
        public Left(Net net, String reason, boolean couldBeUnblocked) {
            this(net, reason, progress -> couldBeUnblocked);
        }

        /**
         * Whether removing occupants could help. May search.
         *
         * @throws java.util.concurrent.CancellationException when {@code progress} says so
         */
        public boolean couldBeUnblocked(Progress progress) {
            return unblockable.test(progress);
        }
    }

    /**
     * A round of negotiation.
     *
     * @param nets the nets, in the order of the round's trees
     * @param round the state after the round
     */
    public record Round(List<Net> nets, RoutingRound round) {
        /** Copies the nets. */
        public Round {
            nets = List.copyOf(nets);
        }
    }

    /** What the choice of pads minimizes. */
    public enum Aim {
        /** The greatest number of nets, then the lowest price, then the smallest sum of delays. */
        MOST,
        /** The smallest sum of delays. */
        SUM,
        /** The smallest maximum delay. */
        WORST,
        /** The smallest difference between the delays. */
        SKEW,
        /** Nets in the order of the pads; among these choices the smallest sum. */
        ORDER
    }

    /** Whether ports may lose their pads. */
    public enum Ports {
        /** A pad that a port has is not taken. */
        KEEP,
        /** A pad that a port has is taken where the others are not enough. */
        MAY_DISCONNECT
    }

    /** The sum of the lines' delays to the pins, rated load, slow corner, ps. */
    public long totalPs() {
        return lines.stream().mapToLong(l -> l.route().total().slowPs()).sum();
    }

    /**
     * Brings nets out on some of the given pads.
     *
     * @param nets the nets, in the order of the bits
     * @param pads indices of pads that may be taken, in their order on the board
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static Bus of(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Aim aim,
            Ports ports,
            Progress progress) {
        return of(design, nets, pads, aim, ports, Optional.empty(), progress);
    }

    /**
     * The same, with a listener.
     *
     * @param watcher receives the state after each round of negotiation
     */
    public static Bus of(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Aim aim,
            Ports ports,
            Optional<Consumer<Round>> watcher,
            Progress progress) {
        return RouteMatrix.of(design, nets, pads, aim, ports, progress)
                .route(Map.of(), watcher, progress);
    }

    /**
     * The skew of two lines at the instrument.
     *
     * @param one a line
     * @param other another
     * @param skew by how much they are apart, and how uncertain that is
     */
    public record Skew(Line one, Line other, PairSkew skew) {}

    /**
     * All pairs of lines, the greatest skew first.
     *
     * @param external what is between the pins and the instrument
     * @param localPercent by how much two routes of the same delay can differ on one die
     */
    public List<Skew> skews(Design design, ExternalLineDelay external, double localPercent) {
        List<Arrival> arrivals =
                lines.stream().map(l -> l.output(design, external).after(l.toPad())).toList();
        List<Skew> result = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            for (int j = i + 1; j < lines.size(); j++) {
                Delay shared = lines.get(i).route().shared(lines.get(j).route());
                PairSkew skew = PairSkew.of(arrivals.get(i), arrivals.get(j), shared, localPercent);
                result.add(new Skew(lines.get(i), lines.get(j), skew));
            }
        }
        result.sort((x, y) -> Integer.compare(y.skew().mostPs(), x.skew().mostPs()));
        return result;
    }

    /**
     * When the lines are valid at the instrument, relative to the clock that one of them shows.
     *
     * @param clock the line of the clock
     * @param periodPs its period, ps; 0 when not known
     * @param localPercent by how much two routes of the same delay can differ on one die
     */
    public ValidTimes validTimes(
            Design design,
            Line clock,
            double periodPs,
            ExternalLineDelay external,
            double localPercent) {
        Arrival clockLine = clock.output(design, external).after(clock.toPad());
        List<ValidTimes.Entry> entries =
                lines.stream()
                        .filter(l -> l != clock)
                        .map(
                                l ->
                                        ValidTimes.entry(
                                                l.net().name(),
                                                l.net().name(),
                                                l.route()
                                                        .setting()
                                                        .map(DriverSetting::millivolts)
                                                        .orElse(0),
                                                design,
                                                l.net(),
                                                clock.net(),
                                                l.toPad(),
                                                l.output(design, external),
                                                clockLine,
                                                localPercent))
                        .toList();
        return new ValidTimes(
                clock.net().name(), "pad " + padOf(design, clock).name(), periodPs, entries);
    }

    /** What the lines cost together, apart from obstacles that were removed for them. */
    public Price price(Design design) {
        return lines.stream()
                .map(l -> Price.ofPad(question(design, l)))
                .reduce(Price.NOTHING, Price::plus);
    }

    /** The question that a line answers. */
    public static Question question(Design design, Line line) {
        return new Question(design, line.net(), line.pad(), Corner.SLOW);
    }

    /** The pad of a line. */
    public static Pad padOf(Design design, Line line) {
        return design.fabric().pads().get(line.pad());
    }
}
