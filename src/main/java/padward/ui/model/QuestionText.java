package padward.ui.model;

import padward.base.BadInput;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.NameLookup;
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
                design,
                NameLookup.requireNet(design, net.strip(), "net"),
                pad(design, pad.strip(), "pad"),
                corner);
    }

    /**
     * The index of the one pad that a text means.
     *
     * @param field the field that it stands in, for faults
     * @throws BadInput when it means none or several
     */
    static int pad(Design design, String text, String field) throws BadInput {
        return NameLookup.requirePad(design, text, field);
    }
}
