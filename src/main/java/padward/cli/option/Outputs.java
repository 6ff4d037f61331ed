package padward.cli.option;

import java.nio.file.Files;
import java.nio.file.Path;
import padward.base.BadInput;
import padward.base.WholeFile;
import padward.format.design.References;

/** Prevents commands from overwriting their input. */
public final class Outputs {
    private Outputs() {}

    /**
     * Checks an output file.
     *
     * @throws BadInput when it is one of the inputs, or its folder does not exist
     */
    public static void check(Path output, Path... inputs) throws BadInput {
        if (Files.isDirectory(output)) {
            throw new BadInput("-o", "", "the name of a file", "a folder, “" + output + "”");
        }
        Path folder = output.toAbsolutePath().getParent();
        if (!Files.isDirectory(folder)) {
            throw new BadInput(output.toString(), "", "a file in an existing folder", "none");
        }
        for (Path input : inputs) {
            if (WholeFile.isSame(output, input)) {
                throw new BadInput("-o", "", "a file that is not an input", output.toString());
            }
        }
    }

    /** The same for a command that reads a design with the files that it names, and a ledger. */
    public static void checkWithDesign(Path output, Path design, Path ledger) throws BadInput {
        check(output, ledger);
        check(output, References.of(design).files(design).toArray(Path[]::new));
    }
}
