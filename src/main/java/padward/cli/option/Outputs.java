package padward.cli.option;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import padward.base.BadInput;
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
            if (isSame(output, input)) {
                throw new BadInput("-o", "", "a file that is not an input", output.toString());
            }
        }
    }

    /** The same for a command that reads a design with the files that it names, and a ledger. */
    public static void checkWithDesign(Path output, Path design, Path ledger) throws BadInput {
        References names = References.of(design);
        Path folder = design.toAbsolutePath().getParent();
        Path fabric = folder.resolve(names.fabric());
        Path board = names.board().isEmpty() ? design : folder.resolve(names.board());
        check(output, design, ledger, fabric, board);
    }

    private static boolean isSame(Path one, Path other) {
        try {
            return Files.exists(one) && Files.exists(other)
                    ? Files.isSameFile(one, other)
                    : one.toAbsolutePath().normalize().equals(other.toAbsolutePath().normalize());
        } catch (IOException fault) {
            return false;
        }
    }
}
