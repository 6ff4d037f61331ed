package padward.ui.model;

import padward.base.BadInput;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.NameLookup;
import padward.fabric.Corner;
import padward.ui.design.OpenDesign;

/** Reads a question from the two text fields. */
final class QuestionParser {
    private QuestionParser() {}

    /**
     * The question in two texts.
     *
     * @throws BadInput when they do not name one net and one pad
     */
    static Question read(OpenDesign opened, String net, String pad, Corner corner) throws BadInput {
        Design design = opened.design();
        return new Question(
                design,
                NameLookup.requireNet(design, net.strip(), "net"),
                pad(design, pad.strip(), "pad"),
                corner);
    }

    /**
     * Index of the one pad that a text names.
     *
     * @param field the name of the field, for faults
     * @throws BadInput when it names none or several
     */
    static int pad(Design design, String text, String field) throws BadInput {
        return NameLookup.requirePad(design, text, field);
    }
}
