package padward.lesson.file;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.base.BadInput;
import padward.breakout.ask.AnswerKind;
import padward.fabric.Corner;
import padward.fabric.EdgeKind;
import padward.fabric.VertexKind;
import padward.format.json.EnumWords;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Shape;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.lesson.condition.AnswerCondition;
import padward.lesson.condition.Condition;
import padward.lesson.condition.DesignCondition;
import padward.lesson.condition.HopCondition;
import padward.lesson.condition.KeptCondition;
import padward.lesson.condition.OptionCondition;
import padward.lesson.condition.QuestionCondition;
import padward.lesson.condition.SkewCondition;
import padward.lesson.condition.WhatIfCondition;

/** Reads one condition of a lesson; its member "look" decides which other members it may have. */
final class ConditionReader {
    /** The values of "look", each with the other members that it may have. */
    private static final Map<String, Set<String>> MAY_HAVE =
            Map.of(
                    "question", Set.of("net", "pad", "corner"),
                    "answer", Set.of("answer"),
                    "hop",
                            Set.of(
                                    "vertex",
                                    "vertexKind",
                                    "edge",
                                    "tile",
                                    "siteKind",
                                    "occupant",
                                    "branch",
                                    "slowest"),
                    "option", Set.of("removes", "cost"),
                    "what-if", Set.of("pending", "answer"),
                    "kept", Set.of("net", "pads", "hazardous"),
                    "skew", Set.of("nets", "max_ps"),
                    "design", Set.of("cell", "net", "port", "present"));

    private static final Shape CONDITION =
            Shape.of(
                    "look!",
                    "net",
                    "pad",
                    "corner",
                    "answer",
                    "vertex",
                    "vertexKind",
                    "edge",
                    "tile",
                    "siteKind",
                    "occupant",
                    "branch",
                    "slowest",
                    "removes",
                    "cost",
                    "pending",
                    "pads",
                    "hazardous",
                    "nets",
                    "max_ps",
                    "cell",
                    "port",
                    "present");
    private static final int MAX_SKEW_PS = 1_000_000;

    private final JsonIn in;
    private String look = "";
    private Optional<String> net = Optional.empty();
    private Optional<String> pad = Optional.empty();
    private Optional<Corner> corner = Optional.empty();
    private Optional<AnswerKind> answer = Optional.empty();
    private Optional<String> vertex = Optional.empty();
    private Optional<VertexKind> vertexKind = Optional.empty();
    private Optional<EdgeKind> edge = Optional.empty();
    private Optional<String> tile = Optional.empty();
    private Optional<String> siteKind = Optional.empty();
    private Optional<String> occupant = Optional.empty();
    private boolean branch;
    private boolean slowest;
    private Optional<String> removes = Optional.empty();
    private Optional<OptionCondition.Cost> cost = Optional.empty();
    private boolean pending = true;
    private List<String> pads = List.of();
    private Optional<Boolean> hazardous = Optional.empty();
    private List<String> nets = List.of();
    private int maxPs;
    private Optional<String> cell = Optional.empty();
    private Optional<String> port = Optional.empty();
    private boolean present = true;

    private ConditionReader(JsonIn in) {
        this.in = in;
    }

    static Condition read(JsonIn in) throws BadInput {
        return new ConditionReader(in).run();
    }

    private Condition run() throws BadInput {
        Members member = in.object(CONDITION);
        while (member.next()) {
            readMember(member.name());
        }
        checkMembers(member);
        return switch (look) {
            case "question" -> new QuestionCondition(net, pad, corner);
            case "answer" -> new AnswerCondition(answer.orElseThrow());
            case "hop" ->
                    new HopCondition(
                            vertex, vertexKind, edge, tile, siteKind, occupant, branch, slowest);
            case "option" -> new OptionCondition(removes, cost);
            case "what-if" -> new WhatIfCondition(pending, answer);
            case "kept" -> new KeptCondition(net, pads, hazardous);
            case "skew" -> new SkewCondition(nets, maxPs);
            default -> stillThere();
        };
    }

    private void readMember(String name) throws BadInput {
        switch (name) {
            case "look" -> look = in.name();
            case "net" -> net = Optional.of(in.name());
            case "pad" -> pad = Optional.of(in.name());
            case "corner" -> corner = Optional.of(in.oneOf(Corner.values(), Corner::label));
            case "answer" -> answer = Optional.of(in.oneOf(AnswerKind.values(), AnswerKind::label));
            case "vertex" -> vertex = Optional.of(in.name());
            case "vertexKind" ->
                    vertexKind = Optional.of(in.oneOf(VertexKind.values(), EnumWords::of));
            case "edge" -> edge = Optional.of(in.oneOf(EdgeKind.values(), EdgeKind::label));
            case "tile" -> tile = Optional.of(in.name());
            case "siteKind" -> siteKind = Optional.of(in.name());
            case "occupant" -> occupant = Optional.of(in.name());
            case "branch" -> branch = in.flag();
            case "slowest" -> slowest = in.flag();
            case "removes" -> removes = Optional.of(in.name());
            case "cost" ->
                    cost =
                            Optional.of(
                                    in.oneOf(
                                            OptionCondition.Cost.values(),
                                            OptionCondition.Cost::label));
            case "pending" -> pending = in.flag();
            case "pads" -> pads = in.list(JsonIn::name);
            case "hazardous" -> hazardous = Optional.of(in.flag());
            case "nets" -> nets = in.list(JsonIn::name);
            case "max_ps" -> maxPs = in.integer(0, MAX_SKEW_PS);
            case "cell" -> cell = Optional.of(in.name());
            case "port" -> port = Optional.of(in.name());
            default -> present = in.flag();
        }
    }

    private void checkMembers(Members member) throws BadInput {
        Set<String> allowed = MAY_HAVE.get(look);
        if (allowed == null) {
            List<String> known = MAY_HAVE.keySet().stream().sorted().toList();
            throw in.fault(
                    "\"look\" with one of " + String.join(", ", known),
                    Nearest.describe(look, known.stream()));
        }
        for (String name : CONDITION.names()) {
            if (!name.equals("look") && member.has(name) && !allowed.contains(name)) {
                throw in.fault(
                        "with \"look\" " + Text.quote(look) + " only " + sorted(allowed),
                        "member " + Text.quote(name));
            }
        }
        switch (look) {
            case "answer" -> need(member, "answer");
            case "skew" -> {
                need(member, "nets");
                need(member, "max_ps");
                if (nets.size() < 2) {
                    throw in.fault("at least two nets", nets.size() + "");
                }
            }
            case "question" -> needOne(net.isPresent() || pad.isPresent() || corner.isPresent());
            case "option" -> needOne(removes.isPresent() || cost.isPresent());
            default -> {}
        }
    }

    private static String sorted(Set<String> names) {
        return String.join(", ", names.stream().sorted().toList());
    }

    private void need(Members member, String name) throws BadInput {
        if (!member.has(name)) {
            throw in.fault("member " + Text.quote(name), "none");
        }
    }

    private void needOne(boolean any) throws BadInput {
        if (!any) {
            throw in.fault("one of " + sorted(MAY_HAVE.get(look)), "none");
        }
    }

    private Condition stillThere() throws BadInput {
        int count =
                (cell.isPresent() ? 1 : 0) + (net.isPresent() ? 1 : 0) + (port.isPresent() ? 1 : 0);
        if (count != 1) {
            throw in.fault("one of cell, net, port", count == 0 ? "none" : "more");
        }
        if (cell.isPresent()) {
            return new DesignCondition(DesignCondition.Kind.CELL, cell.get(), present);
        }
        return net.isPresent()
                ? new DesignCondition(DesignCondition.Kind.NET, net.get(), present)
                : new DesignCondition(DesignCondition.Kind.PORT, port.get(), present);
    }
}
