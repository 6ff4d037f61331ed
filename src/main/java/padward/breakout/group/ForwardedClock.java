package padward.breakout.group;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.breakout.ask.DriverFit;
import padward.breakout.ask.Question;
import padward.breakout.ask.WantedDriver;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.CellKind;
import padward.fabric.DoubleRateRegister;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;
import padward.route.search.WireKinds;
import padward.timing.Arrival;
import padward.timing.ExternalLineDelay;
import padward.timing.OutputPath;
import padward.timing.TreeDelays;
import padward.unblock.release.QuestionContext;

/**
 * A clock that goes out through a register of both edges in the IO register site of a pad, whose
 * data are a constant high and a constant low: a copy in phase, late by the same as data that the
 * pads' registers show (the usual way; common practice, no source).
 *
 * @param clock the clock's net
 * @param pad index of the pad
 * @param otherKinds kinds of wire on its new branch on which the clock did not run before; empty
 *     when it stays on the clock network
 * @param clocked delay of the clock to the register
 * @param clockToOutput of the register; empty when its kind does not state it
 * @param atInstrument from the clock's driver through the register to the instrument
 * @param arrival the same with what shares the die's corner apart
 * @param line the copy on its pad
 * @param edits what places it
 */
public record ForwardedClock(
        Net clock,
        int pad,
        Set<String> otherKinds,
        Delay clocked,
        Optional<Delay> clockToOutput,
        Delay atInstrument,
        Arrival arrival,
        Bus.Line line,
        List<Edit> edits) {
    private static final String PREFIX = "forwarded/";

    /** Copies the set and the list. */
    public ForwardedClock {
        otherKinds = Set.copyOf(otherKinds);
        edits = List.copyOf(edits);
    }

    /**
     * What comes of the question: a copy of the clock, or why there is none.
     *
     * @param found the copy; empty when there is none
     * @param reason why there is none, as a clause; empty when there is one
     */
    public record Result(Optional<ForwardedClock> found, String reason) {
        /** That there is no copy, and why, as a clause. */
        public static Result none(String why) {
            return new Result(Optional.empty(), why);
        }
    }

    /** The register of both edges before a pad, if its site accepts one. */
    public static Optional<CellKind> findKind(Fabric fabric, Pad pad) {
        if (pad.dataSite() == Fabric.NOTHING) {
            return Optional.empty();
        }
        SiteView site = fabric.site(pad.dataSite());
        int output = IoRegister.output(fabric, site, pad);
        return site.accepts().stream()
                .flatMap(k -> fabric.info().findCellKind(k).stream())
                .filter(
                        k ->
                                k.doubleRate()
                                        .filter(r -> r.fits(site))
                                        .filter(r -> site.findPin(r.output()) == output)
                                        .isPresent())
                .findFirst();
    }

    /** The clock of which a net is a copy by a register of both edges. */
    public static Optional<Net> clockOf(Design design, Net net) {
        if (net.driverCell() == Fabric.NOTHING) {
            return Optional.empty();
        }
        Cell cell = design.cells().get(net.driverCell());
        Optional<DoubleRateRegister> register =
                design.fabric()
                        .info()
                        .findCellKind(cell.kind())
                        .flatMap(CellKind::doubleRate)
                        .filter(r -> r.isCopyOfClock(cell.settings()));
        return register.flatMap(
                r ->
                        design.netsAt(cell.id()).stream()
                                .filter(
                                        n ->
                                                n.sinks()
                                                        .contains(
                                                                new Terminal.CellPin(
                                                                        cell.id(), r.clock())))
                                .findFirst());
    }

    /**
     * Forwards a clock on a pad.
     *
     * @param pad index of the pad; no port may have it
     * @param driver what is wanted of its driver
     * @param standing name of the setting that the driver has before
     * @throws CancellationException when {@code progress} says so
     */
    public static Result of(
            Design design,
            Net clock,
            int pad,
            WantedDriver driver,
            String standing,
            ExternalLineDelay external,
            Progress progress) {
        return of(design, clock, new Wanted(pad, driver, standing), external, progress);
    }

    private record Wanted(int pad, WantedDriver driver, String standing) {}

    private static Result of(
            Design design,
            Net clockBefore,
            Wanted line,
            ExternalLineDelay external,
            Progress progress) {
        Fabric fabric = design.fabric();
        Pad pad = fabric.pads().get(line.pad());
        Optional<String> not = whyNot(fabric, pad);
        if (not.isPresent()) {
            return Result.none(not.get());
        }
        CellKind kind = findKind(fabric, pad).orElseThrow();
        DoubleRateRegister register = kind.doubleRate().orElseThrow();
        SiteView site = fabric.site(pad.dataSite());
        Optional<String> taken = whyTaken(design, site);
        if (taken.isPresent()) {
            return Result.none("site " + site.name() + taken.get());
        }
        if (!pad.directions().canDrive()) {
            return Result.none("its pad is input-only");
        }
        if (DriverFit.of(design, line.pad(), line.driver()).hopeless()) {
            return Result.none("no driver setting of its pad fits the voltage of its bank");
        }
        Net clock = design.findNet(clockBefore.name()).orElseThrow();
        int goal = site.findPin(register.clock());
        Optional<VertexPath> path =
                branch(design, clock, goal, WireKinds.of(fabric, clock.route()), progress)
                        .or(() -> branch(design, clock, goal, WireKinds.all(fabric), progress));
        return path.isEmpty()
                ? Result.none("the clock does not reach pin " + fabric.vertexName(goal))
                : placed(design, line, clock, kind, path.get(), external);
    }

    /** Why a register cannot be placed on a site, as what is said of it. */
    private static Optional<String> whyTaken(Design design, SiteView site) {
        if (design.fabric().unusable().isSite(site.id())) {
            return Optional.of(" is unusable");
        }
        boolean used = design.occupancy().findUserOf(site.id()).isPresent();
        boolean tied = false;
        for (int i = 0; i < site.pins().size(); i++) {
            int pin = site.firstPin() + i;
            used |= design.occupancy().isOccupied(pin);
            tied |= design.tiedPins().contains(pin);
        }
        if (used) {
            return Optional.of(" is used");
        }
        return tied ? Optional.of(" keeps the driver of a port's pad on") : Optional.empty();
    }

    /** Why no register before a pad can show a copy of a clock, as a clause. */
    private static Optional<String> whyNot(Fabric fabric, Pad pad) {
        Optional<CellKind> kind = findKind(fabric, pad);
        if (kind.isEmpty()) {
            return Optional.of("its pad has no register of both edges");
        }
        if (kind.get().doubleRate().flatMap(DoubleRateRegister::copyOfClock).isEmpty()) {
            return Optional.of(
                    "the fabric does not say how the data pins of kind "
                            + kind.get().name()
                            + " become constant");
        }
        return pad.use().driving().inverts()
                ? Optional.of("the path to its pad inverts, so it would not be in phase")
                : Optional.empty();
    }

    /**
     * How a register could show a copy of a clock that is asked about, or why none can; empty when
     * the net is no clock, or on the pad already.
     *
     * @param staysOnOwnWires whether the clock comes out without leaving its own kinds of wire, so
     *     that no copy is missed
     * @throws CancellationException when {@code progress} says so
     */
    public static Optional<String> hint(
            Question question, boolean staysOnOwnWires, Progress progress) {
        if (!question.net().clock() || question.isThere()) {
            return Optional.empty();
        }
        Optional<Port> port = question.design().findPortOn(question.pad());
        Result result = without(port, question, progress);
        if (result.found().isEmpty()) {
            return staysOnOwnWires
                    ? Optional.empty()
                    : Optional.of(
                            "A register cannot show a copy of it either: " + result.reason() + ".");
        }
        String clock = question.net().name();
        return Optional.of(
                "The pad's site takes a register of both edges, "
                        + findKind(question.design().fabric(), question.padValue())
                                .orElseThrow()
                                .name()
                        + ": bus --nets '"
                        + clock
                        + "' --pads '"
                        + question.padValue().name()
                        + "' --register '"
                        + clock
                        + "'"
                        + port.map(p -> " --may-disconnect").orElse("")
                        + " forwards a copy in phase"
                        + port.map(p -> "; port " + p.name() + " loses its pad").orElse("")
                        + ".");
    }

    /** What comes of it when the port that has the pad, if any, is disconnected first. */
    private static Result without(Optional<Port> port, Question question, Progress progress) {
        Design design = question.design();
        List<Edit> go =
                port.map(p -> List.<Edit>of(new Edit.DisconnectPort(p.name()))).orElse(List.of());
        if (Outcome.of(design, go) instanceof Outcome.Refused refused) {
            return Result.none(String.join("; ", refused.reasons()));
        }
        return of(
                Outcome.apply(design, go),
                question.net(),
                question.pad(),
                question.driver(),
                DriverFit.standing(design, question.pad()),
                ExternalLineDelay.USUAL,
                progress);
    }

    /** The shortest free branch to a pin over some kinds of wire. */
    private static Optional<VertexPath> branch(
            Design design, Net clock, int goal, WireKinds kinds, Progress progress) {
        return kinds.path(
                SearchSources.along(design.fabric(), clock.route(), Corner.SLOW),
                goal,
                Corner.SLOW,
                new QuestionContext(design, clock, Optional.empty()).overFree(),
                progress);
    }

    private static Result placed(
            Design design,
            Wanted line,
            Net clock,
            CellKind kind,
            VertexPath path,
            ExternalLineDelay external) {
        Fabric fabric = design.fabric();
        Pad pad = fabric.pads().get(line.pad());
        SiteView site = fabric.site(pad.dataSite());
        DoubleRateRegister register = kind.doubleRate().orElseThrow();
        String name = freeName(design, clock.name());
        int output = site.findPin(register.output());
        List<Integer> branch = new ArrayList<>();
        int first = 0;
        for (int i = 0; i < path.size(); i++) {
            first = clock.route().placeOf(path.vertex(i)) == Fabric.NOTHING ? first : i;
        }
        for (int i = first; i < path.size(); i++) {
            branch.add(path.vertex(i));
        }
        List<Edit> edits = new ArrayList<>();
        edits.add(
                new Edit.AddCell(
                        name, kind.name(), site.name(), register.copyOfClock().orElseThrow()));
        edits.add(
                new Edit.AddNet(
                        name,
                        new Edit.CellEnd(name, register.output()),
                        List.of(),
                        RouteTree.of(output),
                        false));
        edits.add(new Edit.AddSink(clock.name(), new Edit.CellEnd(name, register.clock()), branch));
        if (Outcome.of(design, edits) instanceof Outcome.Refused refused) {
            return Result.none(String.join("; ", refused.reasons()));
        }
        Design inside = Outcome.apply(design, edits);
        Optional<Bus.Line> out =
                BusRouting.line(
                        inside,
                        inside.findNet(name).orElseThrow(),
                        line.pad(),
                        line.driver(),
                        line.standing(),
                        new VertexPath(new int[] {output, pad.vertex()}));
        if (out.isEmpty()) {
            return Result.none("the register's output does not reach the pad");
        }
        edits.addAll(out.get().breakOut(inside));
        RouteTree tree = inside.findNet(clock.name()).orElseThrow().route();
        Delay clocked =
                TreeDelays.of(fabric, tree).at(tree.placeOf(site.findPin(register.clock())));
        Delay toPad =
                clocked.plus(register.clockToOutput().orElse(Delay.ZERO)).plus(out.get().toPad());
        OutputPath toInstrument = out.get().output(inside, external);
        Set<String> others =
                WireKinds.of(fabric, clock.route())
                        .others(branch.stream().skip(1).mapToInt(v -> v).toArray());
        return new Result(
                Optional.of(
                        new ForwardedClock(
                                clock,
                                line.pad(),
                                others,
                                clocked,
                                register.clockToOutput(),
                                toPad.plus(toInstrument.toInstrument()),
                                toInstrument.after(toPad),
                                out.get(),
                                edits)),
                "");
    }

    private static String freeName(Design design, String net) {
        String name = PREFIX + net;
        int number = 2;
        while (design.findCell(name).isPresent() || design.findNet(name).isPresent()) {
            name = PREFIX + net + "_" + number++;
        }
        return name;
    }

    /** What it does, as sentences. */
    public List<String> sentences(Design design) {
        List<String> result = new ArrayList<>();
        result.add(
                clock.name()
                        + " is forwarded on "
                        + design.fabric().pads().get(pad).name()
                        + " by a register of both edges, "
                        + line.net().name()
                        + ", in phase: late by the same parts as registered data.");
        result.add(
                otherKinds.isEmpty()
                        ? "Its new branch stays on the kinds of wire on which the clock already runs."
                        : "Its new branch leaves the clock's own kinds of wire and runs on "
                                + String.join(", ", new TreeSet<>(otherKinds))
                                + ".");
        if (clockToOutput.isEmpty()) {
            result.add("Its delay is without the register's clock-to-output, not stated.");
        }
        return result;
    }
}
