package padward.cli.form;

import static padward.format.form.Kinds.list;
import static padward.format.form.WrittenKinds.count;
import static padward.format.form.WrittenKinds.delay;
import static padward.format.form.WrittenKinds.text;
import static padward.format.form.WrittenKinds.texts;
import static padward.format.form.WrittenKinds.whole;

import java.util.List;
import java.util.function.Function;
import padward.breakout.verify.ChangeAudit;
import padward.breakout.verify.DesignDiff;
import padward.breakout.verify.DesignPartDiff;
import padward.breakout.verify.Difference;
import padward.breakout.verify.NetDiff;
import padward.change.Part;
import padward.fabric.Fabric;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Kinds;

/** The forms of differences between designs. */
final class DiffForm {
    private DiffForm() {}

    /** Differences, with the fabric that has the names. */
    record Of(DesignDiff diff, Fabric fabric) {}

    /** An audit, with the fabric that has the names. */
    record Audited(ChangeAudit audit, Fabric fabric) {}

    private record NetOf(NetDiff net, Fabric fabric) {
        List<List<String>> names(List<NetDiff.Step> steps) {
            return steps.stream()
                    .map(s -> List.of(fabric.vertexName(s.from()), fabric.vertexName(s.to())))
                    .toList();
        }
    }

    /** The report that nothing else changed. */
    static Form<Audited> audit() {
        var audit = new Fields<Audited>();
        audit.needed("nothingElseChanged", Kinds.flag(), a -> a.audit().holds())
                .means("whether only what the entries list changed");
        audit.needed("sentence", text(), a -> a.audit().sentence()).means("the same in words");
        audit.needed("touched", list(touched()), a -> a.audit().touched())
                .means("what the entries list");
        audit.needed("unexpected", texts(), a -> a.audit().unlisted()).means("what else changed");
        audit.needed("diff", differences(), a -> new Of(a.audit().diff(), a.fabric()))
                .means("every difference");
        return audit.written();
    }

    private static Form<ChangeAudit.Touched> touched() {
        var touched = new Fields<ChangeAudit.Touched>();
        touched.needed(
                        "kind",
                        Kinds.choice(Part.Kind.values(), Part.Kind::label),
                        ChangeAudit.Touched::kind)
                .means("what it is");
        touched.needed("name", text(), ChangeAudit.Touched::name).means("its name");
        touched.needed("how", how(), ChangeAudit.Touched::how).means("what became of it");
        touched.needed("entries", list(whole().boxed()), t -> List.copyOf(t.entries()))
                .means("numbers of the entries");
        return touched.written();
    }

    private static Kind<Difference> how() {
        return Kinds.choice(Difference.values(), Difference::label);
    }

    private static Form<Of> differences() {
        var diff = new Fields<Of>();
        addDifferences(diff, d -> d);
        return diff.written();
    }

    /** Adds all differences. */
    static <R> void addDifferences(Fields<R> to, Function<R, Of> of) {
        to.needed(
                        "nets",
                        list(net()),
                        r ->
                                of.apply(r).diff().nets().stream()
                                        .map(n -> new NetOf(n, of.apply(r).fabric()))
                                        .toList())
                .means("nets that differ");
        to.needed("cells", list(part()), r -> of.apply(r).diff().cells()).means("cells that do");
        to.needed("ports", list(part()), r -> of.apply(r).diff().ports()).means("ports that do");
        to.needed("unchanged", same(), r -> of.apply(r).diff().same())
                .means("how much was compared and is equal");
    }

    private static Form<DesignDiff.Same> same() {
        var same = new Fields<DesignDiff.Same>();
        same.needed("nets", count(), s -> (long) s.nets()).means("nets");
        same.needed("steps", count(), DesignDiff.Same::steps).means("steps of routes");
        same.needed("delays", count(), DesignDiff.Same::delays).means("delays");
        same.needed("cells", count(), s -> (long) s.cells()).means("cells");
        same.needed("ports", count(), s -> (long) s.ports()).means("ports");
        return same.written();
    }

    private static Form<NetOf> net() {
        var net = new Fields<NetOf>();
        net.needed("name", text(), n -> n.net().name()).means("its name");
        net.needed("how", how(), n -> n.net().how()).means("what became of it");
        net.needed("facts", list(fact()), n -> n.net().facts()).means("what else differs");
        net.needed("stepsRemoved", list(texts()), n -> n.names(n.net().stepsGone()))
                .means("steps of the route, from and to, that are gone");
        net.needed("stepsAdded", list(texts()), n -> n.names(n.net().stepsNew()))
                .means("those that are new");
        net.needed("ends", list(end()), n -> n.net().ends())
                .means("ends whose delay is not the same");
        return net.written();
    }

    private static Form<NetDiff.EndDelay> end() {
        var end = new Fields<NetDiff.EndDelay>();
        end.needed("end", text(), NetDiff.EndDelay::end).means("the end");
        end.maybe("before_ps", delay(), NetDiff.EndDelay::before).means("missing: not reached");
        end.maybe("after_ps", delay(), NetDiff.EndDelay::after).means("missing: not reached");
        return end.written();
    }

    private static Form<DesignPartDiff> part() {
        var part = new Fields<DesignPartDiff>();
        part.needed("name", text(), DesignPartDiff::name).means("its name");
        part.needed("how", how(), DesignPartDiff::how).means("what became of it");
        part.needed("facts", list(fact()), DesignPartDiff::facts).means("what differs");
        return part.written();
    }

    private static Form<NetDiff.Fact> fact() {
        var fact = new Fields<NetDiff.Fact>();
        fact.needed("what", text(), NetDiff.Fact::what).means("what differs");
        fact.needed("before", text(), NetDiff.Fact::before).means("before");
        fact.needed("after", text(), NetDiff.Fact::after).means("after");
        return fact.written();
    }
}
