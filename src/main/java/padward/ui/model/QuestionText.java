package padward.ui.model;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.fabric.Corner;
import padward.ui.design.OpenDesign;

/** Reads a question from what stands in the two fields. */
final class QuestionText {
    private QuestionText() {}

    /**
     * The question that two texts state.
     *
     * @throws BadInput when one of them does not mean one net or one pad
     */
    static Question read(OpenDesign opened, String net, String pad, Corner corner) throws BadInput {
        Design design = opened.design();
        return new Question(
                design, net(opened, net.strip()), pad(design, pad.strip(), "pad"), corner);
    }

    private static Net net(OpenDesign opened, String text) throws BadInput {
        Optional<Net> exact = opened.design().findNet(text);
        if (exact.isPresent()) {
            return exact.get();
        }
        List<String> fitting = Suggestions.of(text, opened.netNames());
        if (fitting.size() == 1 && !text.isEmpty()) {
            return opened.design().findNet(fitting.get(0)).orElseThrow();
        }
        throw new BadInput(
                "net",
                "",
                "the name of a net, or a pattern that matches only one",
                found(text, fitting.size()));
    }

    /**
     * The index of the one pad that a text means.
     *
     * @param field the field that it stands in, for faults
     * @throws BadInput when it means none or several
     */
    static int pad(Design design, String text, String field) throws BadInput {
        List<Integer> fitting = PadNames.find(design, text);
        if (fitting.size() == 1) {
            return fitting.get(0);
        }
        throw new BadInput(
                field,
                "",
                "one pad, by its name, package pin, port, board net or header pin",
                found(text, fitting.size()));
    }

    private static String found(String text, int fitting) {
        if (text.isEmpty()) {
            return "nothing";
        }
        return "“"
                + text
                + "”"
                + (fitting > 1 ? ", which matches several" : ", which matches none");
    }
}
