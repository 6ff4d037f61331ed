package padward.format.design;

import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.format.source.Source;

/** The built-in demo: the small example, packed with the program. */
public final class Demo {
    private Demo() {}

    /**
     * Opens it.
     *
     * @throws BadInput when the program was packed without it
     */
    public static Design open() throws BadInput {
        return DesignReader.read(
                Source.ofResource("/padward/fixtures/small/only.design.json"), Progress.NONE);
    }

    /**
     * Opens the worked example of a negotiation: three nets that want the same wires.
     *
     * @throws BadInput when the program was packed without it
     */
    public static Design openNarrows() throws BadInput {
        return DesignReader.read(
                Source.ofResource("/padward/fixtures/lessons/narrows.design.json"), Progress.NONE);
    }
}
