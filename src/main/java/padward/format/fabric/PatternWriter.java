package padward.format.fabric;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.fabric.pattern.PatternSpec;

/** Writes patterns. */
public final class PatternWriter {
    private PatternWriter() {}

    /**
     * Writes a file, compressed when its name ends in {@code .gz}.
     *
     * @throws BadInput when it cannot be written
     */
    public static void write(PatternSpec spec, Path file) throws BadInput {
        new PatternForm().form().write(file, spec);
    }
}
