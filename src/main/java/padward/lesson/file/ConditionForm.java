package padward.lesson.file;

import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.whole;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.breakout.ask.AnswerKind;
import padward.fabric.EdgeKind;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.format.form.Field;
import padward.format.form.IntField;
import padward.format.form.Kind;
import padward.format.form.Schema;
import padward.format.form.Slot;
import padward.format.form.Variant;
import padward.format.form.Variants;
import padward.format.json.JsonIn;
import padward.lesson.condition.AnswerCondition;
import padward.lesson.condition.Condition;
import padward.lesson.condition.DesignCondition;
import padward.lesson.condition.HopCondition;
import padward.lesson.condition.KeptCondition;
import padward.lesson.condition.OptionCondition;
import padward.lesson.condition.QuestionCondition;
import padward.lesson.condition.ShowsCondition;
import padward.lesson.condition.SkewCondition;
import padward.lesson.condition.WhatIfCondition;

/** The form of a lesson's conditions; the member "look" decides which others one may have. */
final class ConditionForm {
    private static final int MAX_SKEW_PS = 1_000_000;
    private static final int MOST_LATE = 16;

    private final Variants<Condition> all = new Variants<>("look", true);
    private final Field<Optional<String>> net = all.member("net", name()).means("name of a net");
    private final Field<Optional<String>> pad = all.member("pad", name()).means("name of a pad");
    private final Field<Optional<Corner>> corner =
            all.member("corner", choice(Corner.values(), Corner::label)).means("the chosen corner");
    private final Field<Optional<AnswerKind>> answer =
            all.member("answer", choice(AnswerKind.values(), AnswerKind::label))
                    .means("the answer");
    private final Field<Optional<String>> vertex =
            all.member("vertex", name()).means("name of the chosen wire, pin or pad");
    private final Field<Optional<VertexKind>> vertexKind =
            all.member("vertexKind", choice(VertexKind.values())).means("what is chosen");
    private final Field<Optional<EdgeKind>> edge =
            all.member("edge", choice(EdgeKind.values(), EdgeKind::label))
                    .means("how it is entered");
    private final Field<Optional<String>> tile = all.member("tile", name()).means("its tile");
    private final Field<Optional<String>> siteKind =
            all.member("siteKind", name()).means("kind of its site");
    private final Field<Optional<String>> occupant =
            all.member("occupant", name()).means("the cell or net that uses it");
    private final Field<Boolean> branch =
            all.member("branch", flag(), false)
                    .means("whether the route leaves the net's tree there");
    private final Field<Boolean> slowest =
            all.member("slowest", flag(), false).means("whether it is the hop with the most delay");
    private final Field<Optional<String>> removes =
            all.member("removes", name()).means("what the chosen option removes");
    private final Field<Optional<OptionCondition.Cost>> cost =
            all.member("cost", choice(OptionCondition.Cost.values(), OptionCondition.Cost::label))
                    .means("what the chosen option costs");
    private final Field<Boolean> pending =
            all.member("pending", flag(), true).means("whether something is tried; otherwise so");
    private final Field<List<String>> pads =
            all.member("pads", list(name()), List.of()).means("the pads, any of them");
    private final Field<Optional<Boolean>> hazardous =
            all.member("hazardous", flag()).means("whether it can harm the board");
    private final Field<List<String>> nets =
            all.member("nets", atLeastTwo(), List.of()).means("the nets that are compared");
    private final IntField maxPs =
            all.member("max_ps", whole(0, MAX_SKEW_PS), 0).means("greatest skew between them");
    private final Field<Optional<String>> cell = all.member("cell", name()).means("name of a cell");
    private final Field<Optional<String>> port = all.member("port", name()).means("name of a port");
    private final Field<Boolean> present =
            all.member("present", flag(), true).means("whether it is there; otherwise so");

    private final Field<Optional<String>> when =
            all.member("when", name()).means("the condition that the pad shows");
    private final IntField late =
            all.member("late", whole(0, MOST_LATE), 0).means("how many clock cycles later");

    private ConditionForm() {}

    private static Kind<List<String>> atLeastTwo() {
        return list(name()).limited(Schema.any().with("minItems", 2));
    }

    /** The form of any condition. */
    static Kind<Condition> condition() {
        return new ConditionForm().types();
    }

    private Kind<Condition> types() {
        Variant<QuestionCondition> question =
                all.type("question", QuestionCondition.class).may(net, pad, corner);
        question.require(Schema.any().with("minProperties", 2));
        question.makes(
                in -> {
                    needOne(in, question, net, pad, corner);
                    return new QuestionCondition(net.get(), pad.get(), corner.get());
                });
        all.type("answer", AnswerCondition.class)
                .needs(answer)
                .makes(() -> new AnswerCondition(answer.get().orElseThrow()));
        all.type("hop", HopCondition.class)
                .may(vertex, vertexKind, edge, tile, siteKind, occupant, branch, slowest)
                .makes(
                        () ->
                                new HopCondition(
                                        vertex.get(),
                                        vertexKind.get(),
                                        edge.get(),
                                        tile.get(),
                                        siteKind.get(),
                                        occupant.get(),
                                        branch.get(),
                                        slowest.get()));
        Variant<OptionCondition> option =
                all.type("option", OptionCondition.class).may(removes, cost);
        option.require(Schema.any().with("minProperties", 2));
        option.makes(
                in -> {
                    needOne(in, option, removes, cost);
                    return new OptionCondition(removes.get(), cost.get());
                });
        all.type("what-if", WhatIfCondition.class)
                .may(pending, answer)
                .makes(() -> new WhatIfCondition(pending.get(), answer.get()));
        all.type("kept", KeptCondition.class)
                .may(net, pads, hazardous)
                .makes(() -> new KeptCondition(net.get(), pads.get(), hazardous.get()));
        all.type("shows", ShowsCondition.class)
                .needs(pad, when)
                .may(late)
                .makes(
                        () ->
                                new ShowsCondition(
                                        pad.get().orElseThrow(),
                                        when.get().orElseThrow(),
                                        late.get()));
        all.type("skew", SkewCondition.class)
                .needs(nets, maxPs)
                .makes(
                        in -> {
                            if (nets.get().size() < 2) {
                                throw in.fault("at least two nets", nets.get().size() + "");
                            }
                            return new SkewCondition(nets.get(), maxPs.get());
                        });
        all.type("design", DesignCondition.class)
                .may(cell, net, port, present)
                .require(
                        Schema.oneOf(
                                List.of(
                                        Schema.having(cell),
                                        Schema.having(net),
                                        Schema.having(port))))
                .makes(this::stillThere);
        return all;
    }

    private static void needOne(JsonIn in, Variant<?> type, Slot... members) throws BadInput {
        if (Stream.of(members).noneMatch(Slot::isGiven)) {
            throw in.fault("one of " + type.members(), "none");
        }
    }

    private DesignCondition stillThere(JsonIn in) throws BadInput {
        long count = Stream.of(cell, net, port).filter(Slot::isGiven).count();
        if (count != 1) {
            throw in.fault("one of cell, net, port", count == 0 ? "none" : "more");
        }
        if (cell.isGiven()) {
            return new DesignCondition(
                    DesignCondition.Kind.CELL, cell.get().orElseThrow(), present.get());
        }
        return net.isGiven()
                ? new DesignCondition(
                        DesignCondition.Kind.NET, net.get().orElseThrow(), present.get())
                : new DesignCondition(
                        DesignCondition.Kind.PORT, port.get().orElseThrow(), present.get());
    }
}
