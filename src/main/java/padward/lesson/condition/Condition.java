package padward.lesson.condition;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.design.Design;
import padward.design.PadNames;

/**
 * Something that the state of the window fulfils or not; a task is done when its conditions are.
 */
public sealed interface Condition
        permits QuestionCondition,
                AnswerCondition,
                HopCondition,
                OptionCondition,
                WhatIfCondition,
                KeptCondition,
                SkewCondition,
                ShowsCondition,
                DesignCondition {
    /** Whether the state fulfils it. */
    boolean isFulfilled(WindowState state);

    /** What has to be true, as a clause such as {@code the question is about net N}. */
    String toText();

    /** What is true instead, as a clause; empty when that is obvious. */
    Optional<String> seen(WindowState state);

    /**
     * Names in it that the design does not have, each with the kind of thing that it should name.
     */
    default List<Missing> missing(Design design) {
        return List.of();
    }

    /**
     * A name that the design does not have.
     *
     * @param kind the kind of thing that it should name
     * @param name the name
     */
    record Missing(String kind, String name) {}

    /** The pads with a name. */
    static List<Integer> pads(Design design, String name) {
        return PadNames.find(design, name);
    }

    /** The names of nets and pads that the design does not have. */
    static List<Missing> missing(Design design, List<String> nets, List<String> pads) {
        List<Missing> result = new ArrayList<>();
        for (String net : nets) {
            if (design.findNet(net).isEmpty()) {
                result.add(new Missing("net", net));
            }
        }
        for (String pad : pads) {
            if (pads(design, pad).size() != 1) {
                result.add(new Missing("pad", pad));
            }
        }
        return result;
    }
}
