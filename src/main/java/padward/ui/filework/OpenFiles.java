package padward.ui.filework;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.WholeFile;
import padward.format.design.References;
import padward.ui.model.DesignStore;

/**
 * The files of the open design, over which no tool writes.
 *
 * @param design its file; none for the demo and for lessons
 * @param ledger the ledger that was opened or saved last
 */
record OpenFiles(Optional<Path> design, Optional<Path> ledger) {
    static OpenFiles of(DesignStore store) {
        return new OpenFiles(store.fileProperty().get(), store.ledger());
    }

    /**
     * Reads which other files the design names, so not for the UI thread.
     *
     * @param label the field that states the file to be written
     * @throws BadInput when the file to be written is one of these, also through a link
     */
    void check(String label, Path output) throws BadInput {
        for (Path file : all()) {
            if (WholeFile.isSame(output, file)) {
                throw new BadInput(
                        label,
                        "",
                        "a file other than the open design's, its fabric's, its board's and its"
                                + " ledger's",
                        "“" + output + "”");
            }
        }
    }

    private List<Path> all() {
        List<Path> all = new ArrayList<>();
        design.ifPresent(file -> all.addAll(named(file)));
        ledger.ifPresent(all::add);
        return all;
    }

    /** A design that cannot be read any more does not keep a tool from its work. */
    private static List<Path> named(Path design) {
        try {
            return References.of(design).files(design);
        } catch (BadInput fault) {
            return List.of(design);
        }
    }
}
