package padward.cli.form;

import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.real;
import static padward.format.form.WrittenKinds.count;
import static padward.format.form.WrittenKinds.delay;
import static padward.format.form.WrittenKinds.number;
import static padward.format.form.WrittenKinds.text;
import static padward.format.form.WrittenKinds.texts;
import static padward.format.form.WrittenKinds.whole;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.group.Bus;
import padward.breakout.group.ForwardedClock;
import padward.breakout.group.MatchedGroup;
import padward.breakout.group.RegisterCheck;
import padward.breakout.group.RegisteredGroup;
import padward.breakout.group.UnblockedGroup;
import padward.breakout.group.Unblocking;
import padward.breakout.text.WhyText;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Kinds;
import padward.format.source.FileLimits;
import padward.timing.ExternalLineDelay;
import padward.timing.PairSkew;
import padward.timing.SinkDelayChange;
import padward.timing.ValidTimes;
import padward.watch.registered.FabricRegister;
import padward.watch.registered.RegisteredLines;

/** The form of a group of nets that are brought out together. */
public final class GroupForm {
    private GroupForm() {}

    /**
     * A group.
     *
     * @param recorded what changes: the group, or the one of its registers' nets
     * @param unblocking what came of the search for what to remove
     * @param done whether what had to be removed for it was removed
     */
    public record Group(
            Design design,
            Bus bus,
            Bus recorded,
            Unblocking unblocking,
            boolean done,
            Optional<MatchedGroup> matched,
            Optional<RegisteredLines> registered,
            Optional<ValidTimes> valid,
            Optional<String> distance,
            ExternalLineDelay external,
            double localPercent) {
        private Optional<UnblockedGroup> applied() {
            return unblocking.found().filter(u -> done);
        }

        private Price price() {
            return applied().map(u -> u.price(design)).orElseGet(() -> bus.price(design));
        }

        private Price price(Bus.Line line) {
            return applied()
                    .map(u -> u.price(design, line))
                    .orElseGet(() -> Price.ofPad(Bus.question(design, line)));
        }

        private List<SinkDelayChange> delayChanges() {
            return design.fabric().info().electrical().isUnknown()
                    ? List.of()
                    : SinkDelayChange.between(design, Outcome.apply(design, recorded.edits()));
        }
    }

    /** Something of a group. */
    private record In<T>(Group group, T thing) {
        static <T> List<In<T>> all(Group group, List<T> things) {
            return things.stream().map(t -> new In<>(group, t)).toList();
        }

        static <T> Optional<In<T>> maybe(Group group, Optional<T> thing) {
            return thing.map(t -> new In<>(group, t));
        }

        Design design() {
            return group.design();
        }
    }

    /** The form. */
    public static Form<Group> form() {
        var group = new Fields<Group>();
        group.constant("format", "padward-bus/1");
        group.needed("lines", list(line()), g -> In.all(g, g.bus().lines()))
                .means("each net served");
        group.needed("notServed", list(left()), g -> g.bus().left()).means("each that is not");
        group.maybe("proof", proof(), g -> In.maybe(g, g.bus().proof()))
                .means("with --aim most: that no more can be served");
        group.maybe("bound", bound(), g -> g.bus().bound())
                .means(
                        "with --aim most, where there is no proof, or when --within-ms stopped the search");
        group.needed(
                        "skews",
                        list(skew()),
                        g -> g.bus().skews(g.design(), g.external(), g.localPercent()))
                .means("at the instrument, the greatest first");
        group.needed("lead_m", real(0, FileLimits.LEAD_METRES), g -> g.external().metres())
                .means("length of the leads in instrument_ps, as --lead-m states it");
        group.needed("total_ps", count(), g -> g.bus().totalPs()).means("sum of the delays");
        group.needed("lowerBound_ps", count(), g -> g.bus().alonePs())
                .means(
                        "sum that each net would take alone to the same pad; when stopped 0, as it is"
                                + " not known");
        group.needed("price", PriceForm.price(), Group::price).means("of all lines together");
        group.maybe("unblocked", unblocked(), g -> In.maybe(g, g.unblocking().found()))
                .means("when nets are left that could be served");
        group.maybe(
                        "unblockingStopped",
                        Kinds.flag(),
                        g -> Optional.of(true).filter(t -> g.unblocking().stopped()))
                .means("true when --within-ms stopped the search for what to remove");
        group.maybe("registered", registered(), g -> In.maybe(g, g.registered()))
                .means("with --register");
        group.maybe("valid", valid(), Group::valid).means("with --clock-channel");
        group.maybe("distanceToBest", text(), Group::distance)
                .means("for other aims: how far the group is from the proven best");
        group.maybe("matched", matched(), g -> In.maybe(g, g.matched())).means("with --match-ps");
        group.needed("delayChanges", list(delayChange()), Group::delayChanges)
                .means("other sinks of the nets");
        group.needed("edits", texts(), g -> EntryForm.words(g.recorded().edits()))
                .means("in words");
        PriceForm.addShared(
                group, g -> Optional.of(Cautions.ofEdits(g.design(), g.recorded().edits())));
        return group.written();
    }

    private static Form<In<Bus.Line>> line() {
        var line = new Fields<In<Bus.Line>>();
        line.needed("net", text(), l -> l.thing().net().name()).means("the net");
        line.needed("pad", text(), l -> Bus.padOf(l.design(), l.thing()).name()).means("its pad");
        line.needed(
                        "instrument_ps",
                        delay(),
                        l -> l.thing().atInstrument(l.design(), l.group().external()))
                .means("delay to the instrument");
        RouteForm.addRoute(line, l -> Optional.of(l.thing().route()));
        line.needed("price", PriceForm.price(), l -> l.group().price(l.thing()))
                .means("what it costs");
        return line.written();
    }

    private static Form<Bus.Left> left() {
        var left = new Fields<Bus.Left>();
        left.needed("net", text(), l -> l.net().name()).means("the net");
        left.needed("reason", text(), Bus.Left::reason).means("why");
        return left.written();
    }

    private static Form<In<Bus.Proof>> proof() {
        var proof = new Fields<In<Bus.Proof>>();
        proof.needed("most", Kinds.flag(), p -> true).means("no more can be served");
        proof.maybe(
                        "nets",
                        texts(),
                        p ->
                                p.thing()
                                        .bottleneck()
                                        .map(b -> b.nets().stream().map(Net::name).toList()))
                .means("of which no more than as many as pass has can be served together");
        proof.maybe(
                        "pass",
                        texts(),
                        p ->
                                p.thing()
                                        .bottleneck()
                                        .map(
                                                b ->
                                                        b.vertices().stream()
                                                                .map(
                                                                        v ->
                                                                                p.design()
                                                                                        .fabric()
                                                                                        .vertexName(
                                                                                                v))
                                                                .toList()))
                .means("the wires, pins and pads that they have to pass");
        proof.maybe("where", text(), p -> p.thing().bottleneck().flatMap(Bus.Bottleneck::tiles))
                .means("the tiles that these lie in, pads apart");
        proof.maybe(
                        "usedBy",
                        texts(),
                        p ->
                                p.thing()
                                        .bottleneck()
                                        .map(b -> b.users().stream().map(Net::name).toList()))
                .means("the nets that use other wires in these tiles, which the nets could enter");
        proof.maybe("oneMore", oneMore(), p -> p.thing().oneMore())
                .means("when not all are served: what must be removed for one more");
        return proof.written();
    }

    private static Form<Bus.Bound> bound() {
        var known = new Fields<Bus.Bound>();
        known.needed("served", number(), Bus.Bound::served).means("how many nets have a route");
        known.needed("atMost", number(), Bus.Bound::atMost)
                .means("how many can have one together at the most, proven");
        known.needed("of", number(), Bus.Bound::of).means("how many nets were asked about");
        known.needed("stopped", Kinds.flag(), Bus.Bound::stopped)
                .means("whether the search was stopped");
        return known.written();
    }

    private static Form<Bus.OneMore> oneMore() {
        var more = new Fields<Bus.OneMore>();
        more.needed("remove", texts(), o -> o.remove().stream().map(WhyText::who).toList())
                .means("the fewest, tried; empty where none are known");
        more.needed("provenFewest", Kinds.flag(), o -> !o.remove().isEmpty())
                .means("whether fewer cannot do");
        more.maybe(
                        "atLeast",
                        number().boxed(),
                        o -> o.isNever() ? Optional.empty() : Optional.of(o.atLeast()))
                .means("how many must be removed at least");
        more.needed("possible", Kinds.flag(), o -> !o.isNever()).means("whether any removal helps");
        return more.written();
    }

    private static <R> void addSkew(Fields<R> to, Function<R, PairSkew> skew) {
        to.needed("fast_ps", whole(), r -> skew.apply(r).fastPs()).means("by the routes, fast");
        to.needed("slow_ps", whole(), r -> skew.apply(r).slowPs()).means("by the routes, slow");
        to.needed("local_ps", whole(), r -> skew.apply(r).localPs())
                .means("by local variation, either way");
        to.needed("outside_ps", whole(), r -> skew.apply(r).outsidePs())
                .means("outside the chip, either way");
        to.needed("most_ps", whole(), r -> skew.apply(r).mostPs()).means("the greatest to expect");
    }

    private static Form<Bus.Skew> skew() {
        var skew = new Fields<Bus.Skew>();
        skew.needed("one", text(), s -> s.one().net().name()).means("the one net");
        skew.needed("other", text(), s -> s.other().net().name()).means("the other");
        addSkew(skew, Bus.Skew::skew);
        return skew.written();
    }

    private static Form<In<UnblockedGroup>> unblocked() {
        var unblocked = new Fields<In<UnblockedGroup>>();
        unblocked
                .needed("served", number(), u -> u.thing().bus().lines().size())
                .means("how many are served then");
        unblocked
                .needed("provenMinimum", Kinds.flag(), u -> u.thing().provenMinimum())
                .means("whether fewer removals cannot do");
        unblocked
                .needed("lowerBound", number(), u -> u.thing().lowerBound())
                .means("how many removals it takes at the least");
        unblocked
                .needed("removed", list(removed()), u -> u.thing().removed())
                .means("what is removed");
        unblocked
                .needed("price", PriceForm.price(), u -> u.thing().price(u.design()))
                .means("what that costs");
        return unblocked.written();
    }

    private static Form<UnblockedGroup.Removed> removed() {
        var removed = new Fields<UnblockedGroup.Removed>();
        removed.needed("occupant", text(), r -> WhyText.who(r.removal().occupant()))
                .means("what it is");
        removed.needed("net", text(), r -> r.blocked().question().net().name())
                .means("the net that needs it");
        removed.needed("pad", text(), r -> r.blocked().question().padValue().name())
                .means("that net's pad");
        removed.needed("sentence", text(), r -> WhyText.consequence(r.blocked(), r.removal()))
                .means("what its removal means");
        return removed.written();
    }

    private static Form<In<RegisteredLines>> registered() {
        var skew = new Fields<PairSkew>();
        addSkew(skew, s -> s);
        var registered = new Fields<In<RegisteredLines>>();
        registered
                .needed("clock", text(), r -> r.thing().inPads().clock().name())
                .means("the clock");
        registered
                .needed("possible", Kinds.flag(), r -> r.thing().isPossible())
                .means("whether all lines can be");
        registered
                .maybe("skew", skew.written(), r -> r.thing().skew())
                .means("of the two lines farthest apart");
        registered
                .needed(
                        "lines",
                        list(registeredLine()),
                        r -> In.all(r.group(), r.thing().inPads().lines()))
                .means("each line, as its pad's IO register can take it");
        registered
                .needed(
                        "inFabric",
                        list(fabricRegister()),
                        r -> In.all(r.group(), r.thing().inFabric()))
                .means("lines that the pads' registers alone cannot take");
        registered
                .maybe(
                        "forwarded",
                        forwarded(),
                        r -> r.thing().forwarded().map(f -> new In<>(r.group(), f)))
                .means("the clock itself, if it is a net of the group");
        registered
                .maybe(
                        "edits",
                        texts(),
                        r -> r.thing().placed().map(b -> EntryForm.words(b.edits())))
                .means("how the registers are placed, if nothing need be removed for them");
        return registered.written();
    }

    private static Form<In<ForwardedClock.Result>> forwarded() {
        var copy = new Fields<In<ForwardedClock.Result>>();
        copy.maybe("reason", text(), f -> Optional.of(f.thing().reason()).filter(r -> !r.isEmpty()))
                .means("why it is not possible");
        copy.maybe("net", text(), f -> f.thing().found().map(c -> c.line().net().name()))
                .means("the copy of the clock");
        copy.maybe(
                        "otherWires",
                        texts(),
                        f -> f.thing().found().map(c -> c.otherKinds().stream().sorted().toList()))
                .means(
                        "kinds of wire on its branch on which the clock did not run before; none"
                                + " when it stays on the clock network");
        copy.maybe("clock_ps", delay(), f -> f.thing().found().map(ForwardedClock::clocked))
                .means("when the clock arrives at the register");
        copy.maybe(
                        "clockToOutput_ps",
                        delay(),
                        f -> f.thing().found().flatMap(ForwardedClock::clockToOutput))
                .means("how long the register takes");
        copy.maybe(
                        "instrument_ps",
                        delay(),
                        f -> f.thing().found().map(ForwardedClock::atInstrument))
                .means("when the copy arrives at the instrument");
        return copy.written();
    }

    private static Form<In<FabricRegister>> fabricRegister() {
        var line = new Fields<In<FabricRegister>>();
        line.needed("net", text(), l -> l.thing().net().name()).means("the net");
        line.needed("pad", text(), l -> l.design().fabric().pads().get(l.thing().pad()).name())
                .means("its pad");
        line.maybe("reason", text(), l -> l.thing().reason()).means("why it is not possible");
        line.needed("cycles", number(), l -> l.thing().cycles())
                .means("periods of the clock by which it is late; with 2 it is synchronised");
        line.needed(
                        "registers",
                        texts(),
                        l -> l.thing().cells().stream().map(c -> c.cell()).toList())
                .means("cells that it passes, in order");
        line.needed("sites", texts(), l -> l.thing().cells().stream().map(c -> c.site()).toList())
                .means("their sites");
        line.maybe("instrument_ps", delay(), l -> l.thing().atInstrument())
                .means("from the clock's driver through the last register to the instrument");
        line.maybe(
                        "leastPeriod_ps",
                        whole().boxed(),
                        l -> l.thing().check().flatMap(c -> c.leastPeriodPs()))
                .means("the shortest period that meets the setup time");
        line.maybe("hold_ps", whole().boxed(), l -> l.thing().check().flatMap(c -> c.holdPs()))
                .means("by how much the hold time is met");
        line.needed(
                        "notStated",
                        texts(),
                        l -> l.thing().check().map(c -> List.copyOf(c.unknown())).orElse(List.of()))
                .means("what the fabric does not state");
        return line.written();
    }

    private static Form<In<RegisteredGroup.Line>> registeredLine() {
        var line = new Fields<In<RegisteredGroup.Line>>();
        line.needed("net", text(), l -> l.thing().net().name()).means("the net");
        line.needed("pad", text(), l -> l.design().fabric().pads().get(l.thing().pad()).name())
                .means("its pad");
        line.needed(
                        "toRemove",
                        texts(),
                        l -> l.thing().toRemove().stream().map(WhyText::who).toList())
                .means("what has to be removed first");
        line.maybe("reason", text(), l -> l.thing().reason()).means("why it is not possible");
        line.maybe("data_ps", delay(), l -> possible(l).map(RegisteredGroup.Line::data))
                .means("when the data arrive at the register");
        line.maybe("clock_ps", delay(), l -> possible(l).map(RegisteredGroup.Line::clocked))
                .means("when the clock does");
        line.maybe(
                        "instrument_ps",
                        delay(),
                        l -> possible(l).map(RegisteredGroup.Line::atInstrument))
                .means("when the signal arrives at the instrument");
        line.maybe(
                        "clockToOutput_ps",
                        delay(),
                        l -> possible(l).flatMap(p -> p.check().clockToOutput()))
                .means("how long the register takes");
        line.maybe(
                        "leastPeriod_ps",
                        slack(),
                        l -> possible(l).flatMap(p -> p.check().leastPeriod()))
                .means("the shortest period that meets the setup time, fast and slow");
        line.maybe("hold_ps", slack(), l -> possible(l).flatMap(p -> p.check().hold()))
                .means("by how much the hold time is met, fast and slow");
        line.maybe(
                        "notStated",
                        texts(),
                        l -> possible(l).map(p -> List.copyOf(p.check().unknown())))
                .means("what the fabric does not state");
        return line.written();
    }

    private static Kind<RegisterCheck.Slack> slack() {
        return list(whole().boxed())
                .as(
                        (in, both) -> new RegisterCheck.Slack(both.get(0), both.get(1)),
                        s -> List.of(s.fastPs(), s.slowPs()));
    }

    private static Optional<RegisteredGroup.Line> possible(In<RegisteredGroup.Line> line) {
        return Optional.of(line.thing()).filter(l -> l.reason().isEmpty());
    }

    private static Form<ValidTimes> valid() {
        var line = new Fields<ValidTimes.Entry>();
        line.needed("net", text(), ValidTimes.Entry::label).means("the net");
        line.maybe("from_ps", whole().boxed(), e -> e.window().map(ValidTimes.Window::fromPs))
                .means("after a rising edge");
        line.maybe("to_ps", whole().boxed(), e -> e.window().map(ValidTimes.Window::toPs))
                .means("after the next one");
        line.needed("notStated", texts(), e -> e.remarks().stream().sorted().toList())
                .means("what the window lacks, or why there is none");
        var all = new Fields<ValidTimes.Window>();
        all.needed("from_ps", whole(), ValidTimes.Window::fromPs).means("after a rising edge");
        all.needed("to_ps", whole(), ValidTimes.Window::toPs).means("after the next one");
        all.needed("leastPeriod_ps", whole(), ValidTimes.Window::leastPeriodPs)
                .means("at a shorter period there is no such time");
        var valid = new Fields<ValidTimes>();
        valid.needed("clock", text(), ValidTimes::clock).means("the clock");
        valid.needed("channel", text(), ValidTimes::channel).means("the channel that shows it");
        valid.needed("lines", list(line.written()), ValidTimes::entries).means("each other line");
        valid.maybe("all", all.written(), ValidTimes::all).means("when all are valid");
        valid.needed("advice", texts(), ValidTimes::advice).means("in sentences");
        return valid.written();
    }

    private static Form<In<MatchedGroup>> matched() {
        var miss = new Fields<In<MatchedGroup.Miss>>();
        miss.needed("net", text(), m -> m.thing().line().net().name()).means("the net");
        miss.needed("pad", text(), m -> Bus.padOf(m.design(), m.thing().line()).name())
                .means("its pad");
        miss.needed("proven", Kinds.flag(), m -> m.thing().proven())
                .means("whether it is proven that it cannot be matched");
        var matched = new Fields<In<MatchedGroup>>();
        matched.needed("tolerance_ps", whole(), m -> m.thing().tolerancePs()).means("as wanted");
        matched.needed("before_ps", whole(), m -> m.thing().beforePs()).means("the skew before");
        matched.needed("after_ps", whole(), m -> m.thing().afterPs()).means("the skew after");
        matched.needed("uncertain_ps", whole(), m -> m.thing().uncertainPs())
                .means("what no detour changes");
        matched.needed(
                        "notMatched",
                        list(miss.written()),
                        m -> In.all(m.group(), m.thing().misses()))
                .means("lines that were not matched");
        return matched.written();
    }

    static Form<SinkDelayChange> delayChange() {
        var change = new Fields<SinkDelayChange>();
        change.needed("net", text(), SinkDelayChange::net).means("the net");
        change.needed("sink", text(), SinkDelayChange::sink).means("its sink");
        change.needed("before_ps", delay(), SinkDelayChange::before).means("delay before");
        change.needed("after_ps", delay(), SinkDelayChange::after).means("delay after");
        change.maybe("slackBefore_ps", whole(), SinkDelayChange::slackBeforePs)
                .means("slack before");
        change.maybe("slackAfter_ps", whole(), SinkDelayChange::slackAfterPs).means("slack after");
        return change.written();
    }
}
