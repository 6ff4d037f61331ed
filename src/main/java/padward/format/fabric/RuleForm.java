package padward.format.fabric;

import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.delay;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.knownName;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import padward.base.BadInput;
import padward.fabric.EdgeKind;
import padward.fabric.delay.Delay;
import padward.fabric.pattern.IndexMap;
import padward.fabric.pattern.PatternSpec.Rule;
import padward.fabric.pattern.PatternSpec.WireKind;
import padward.fabric.pattern.Side;
import padward.fabric.pattern.SwitchBoxTopology;
import padward.format.form.Field;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Schema;
import padward.format.form.Slot;
import padward.format.json.JsonIn;
import padward.format.json.Names;
import padward.format.source.Text;

/**
 * The form of the rules of a switch box. The short form for a whole box is read as the rules that
 * it means, so one element may mean several; rules are written one by one.
 */
final class RuleForm {
    private final Names wireNames;
    private final Map<String, WireKind> wires;
    private final Names switchNames;
    private final Map<String, Delay> switches;

    /**
     * @param wires the pattern's kinds of wire by their names
     * @param switches the delays of its switches by their names
     */
    RuleForm(
            Names wireNames,
            Map<String, WireKind> wires,
            Names switchNames,
            Map<String, Delay> switches) {
        this.wireNames = wireNames;
        this.wires = wires;
        this.switchNames = switchNames;
        this.switches = switches;
    }

    /** The rules of a tile type. */
    Kind<List<Rule>> rules() {
        return list(element())
                .as(
                        (in, read) -> read.stream().flatMap(List::stream).toList(),
                        rules -> rules.stream().map(List::of).toList());
    }

    private Form<List<Rule>> element() {
        var rule = new Fields<List<Rule>>();
        var from = rule.optional("from", name(), "", only(Rule::from)).means("where from");
        var to = rule.optional("to", name(), "", only(Rule::to)).means("where to");
        var map =
                rule.stated("map", new IndexMapKind(), new IndexMap.Same(), only(Rule::map))
                        .means("which members meet; otherwise `same`");
        var through =
                rule.maybe(
                                "switch",
                                knownName(switchNames)
                                        .as((in, name) -> switches.get(name), RuleForm::switchName),
                                only(r -> delayOf(r, EdgeKind.SWITCH)))
                        .means("kind of switch");
        var connection =
                rule.optional(
                                "connection",
                                flag(),
                                false,
                                only(r -> r.kind() == EdgeKind.CONNECTION))
                        .means("whether it is fixed; otherwise not");
        var fixed =
                rule.maybe("delay_ps", delay(), only(r -> delayOf(r, EdgeKind.CONNECTION)))
                        .means("of a fixed connection");
        var box =
                rule.optional("box", choice(SwitchBoxTopology.values()), SwitchBoxTopology.DISJOINT)
                        .means("topology of a whole switch box");
        var boxed =
                rule.optional("wires", list(boxedWire()), List.of())
                        .means("the wires of a whole box");
        rule.require(
                Schema.oneOf(
                        List.of(
                                Schema.having(box, boxed, through),
                                Schema.having(from, to, through),
                                Schema.having(from, to, connection, fixed))));
        return rule.makes(
                in -> {
                    if (box.isGiven()) {
                        Fields.need(in, boxed, through);
                        forbid(in, box, from, to, map, connection, fixed);
                        IndexMap meeting = new IndexMap.ByTopology(box.get());
                        return wholeBox(meeting, boxed.get(), through.get().orElseThrow());
                    }
                    Field<Optional<Delay>> delay = connection.get() ? fixed : through;
                    Fields.need(in, from, to, delay);
                    if (connection.get()) {
                        forbid(in, connection, through, boxed);
                    } else {
                        forbid(in, through, fixed, boxed);
                    }
                    EdgeKind kind = connection.get() ? EdgeKind.CONNECTION : EdgeKind.SWITCH;
                    return List.of(
                            new Rule(
                                    from.get(),
                                    to.get(),
                                    map.get(),
                                    kind,
                                    delay.get().orElseThrow()));
                });
    }

    private static <V> Function<List<Rule>, V> only(Function<Rule, V> get) {
        return rules -> get.apply(rules.get(0));
    }

    private static Optional<Delay> delayOf(Rule rule, EdgeKind kind) {
        return rule.kind() == kind ? Optional.of(rule.delay()) : Optional.empty();
    }

    /** Switches have no names in a pattern's records; each delay becomes one. */
    static String switchName(Delay delay) {
        return "switch " + delay.fastPs() + " " + delay.slowPs();
    }

    private static void forbid(JsonIn in, Slot other, Slot... members) throws BadInput {
        for (Slot member : members) {
            if (member.isGiven()) {
                throw in.fault(
                        "no "
                                + Text.quote(member.name())
                                + " together with "
                                + Text.quote(other.name()),
                        "it");
            }
        }
    }

    private Kind<WireKind> boxedWire() {
        return knownName(wireNames)
                .as((in, name) -> wires.get(name), WireKind::name)
                .checked(
                        (in, kind) -> {
                            if ((kind.dx() == 0) == (kind.dy() == 0)) {
                                throw in.fault(
                                        "a wire along one axis (others have no sides)",
                                        Text.quote(kind.name())
                                                + " with step "
                                                + kind.dx()
                                                + ","
                                                + kind.dy());
                            }
                        });
    }

    /** From every wire to every other that does not leave by the side where the first came in. */
    private static List<Rule> wholeBox(IndexMap map, List<WireKind> boxed, Delay delay) {
        List<Rule> rules = new ArrayList<>();
        for (WireKind from : boxed) {
            Side entered = Side.ofStep(from.dx(), from.dy()).opposite();
            for (WireKind to : boxed) {
                if (entered != Side.ofStep(to.dx(), to.dy())) {
                    rules.add(new Rule(from.name(), to.name(), map, EdgeKind.SWITCH, delay));
                }
            }
        }
        return rules;
    }
}
