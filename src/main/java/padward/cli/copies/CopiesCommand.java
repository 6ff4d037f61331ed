package padward.cli.copies;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import padward.cli.output.ExitStatus;
import padward.format.compact.CopyFolder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code copies}: the compact copies of fabrics and designs in the user's cache folder. */
@Command(
        name = "copies",
        mixinStandardHelpOptions = true,
        description = {
            "Says where Padward keeps compact copies of large designs, and of large fabrics that"
                    + " list every wire, and how many there are. A file is read much faster from its"
                    + " copy; a copy of a file that was changed is not used. Copies can be deleted at"
                    + " any time.",
            "",
            "Copies are kept in the system's folder for caches, or in the folder that the"
                    + " environment names in PADWARD_CACHE; PADWARD_CACHE=off turns them off."
        },
        footer = {"", "Example:", "  padward copies --delete"})
public final class CopiesCommand implements Callable<Integer> {
    private static final double MEGABYTE = 1e6;

    @Spec private CommandSpec spec;

    @Option(names = "--delete", description = "Delete all of them.")
    private boolean delete;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        Optional<CopyFolder> folder = CopyFolder.find();
        if (folder.isEmpty()) {
            out.printf(Locale.ROOT, "no copies are kept: %s is off%n", CopyFolder.VARIABLE);
        } else if (delete) {
            out.printf(
                    Locale.ROOT,
                    "%s: %s deleted%n",
                    folder.get().path(),
                    copies(folder.get().clear()));
        } else {
            List<CopyFolder.Entry> all = folder.get().copies();
            out.printf(
                    Locale.ROOT,
                    "%s: %s, %.1f MB%n",
                    folder.get().path(),
                    copies(all.size()),
                    all.stream().mapToLong(CopyFolder.Entry::bytes).sum() / MEGABYTE);
        }
        out.flush();
        return ExitStatus.DONE;
    }

    private static String copies(int count) {
        return count == 1 ? "1 copy" : count + " copies";
    }
}
