package padward.ui.model;

import padward.base.BadInput;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.NameLookup;
import padward.fabric.delay.Corner;
import padward.ui.design.OpenDesign;

/** Reads a question from the two text fields. */
final class QuestionFieldsParser {
    private QuestionFieldsParser() {}

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
                NameLookup.requirePad(design, pad.strip(), "pad"),
                corner);
    }
}
