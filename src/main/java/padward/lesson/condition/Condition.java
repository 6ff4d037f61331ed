package padward.lesson.condition;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.design.Design;
import padward.design.PadNames;

/** Something that is true of the window's state or not: what a lesson's task is marked by. */
public sealed interface Condition
        permits AskedFor,
                AnswerIs,
                HopChosen,
                OptionChosen,
                WhatIfIs,
                KeptIs,
                SkewWithin,
                StillThere {
    /** Whether it is true. */
    boolean holds(WindowState state);

    /** What must be true, as a clause: {@code the question is about net N}. */
    String toText();

    /** What stands against it now, as a clause; empty when that is plain. */
    Optional<String> seen(WindowState state);

    /** Names in it that a design does not have, each with what sort of thing it should name. */
    default List<Missing> missing(Design design) {
        return List.of();
    }

    /**
     * A name that means nothing in a design.
     *
     * @param sort what it should name
     * @param name the name
     */
    record Missing(String sort, String name) {}

    /** The pads that a name means. */
    static List<Integer> pads(Design design, String name) {
        return PadNames.find(design, name);
    }

    /** What a net's name and a pad's name lack in a design. */
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
