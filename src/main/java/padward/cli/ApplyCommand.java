package padward.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.Harmlessness;
import padward.design.Design;
import padward.design.Ledger;
import padward.design.LedgerEntry;
import padward.format.DesignReader;
import padward.format.DesignWriter;
import padward.format.Digest;
import padward.format.LedgerReader;
import padward.format.References;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code apply}: a ledger on a design, written as a new design. */
@Command(
        name = "apply",
        mixinStandardHelpOptions = true,
        description = {
            "Writes a copy of a design with all that a ledger holds, reads it again, and tells what",
            "differs. A ledger without entries gives the very bytes of the design's file. On another",
            "run of the design than the ledger was made on, says exactly what does not fit any more."
        },
        footer = {
            "",
            "Example:",
            "  padward apply --design fixtures/small/only.design.json --ledger bench.json \\",
            "      -o changed.design.json"
        })
final class ApplyCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Spec private CommandSpec spec;

    @Option(
            names = {"-l", "--ledger"},
            required = true,
            paramLabel = "FILE",
            description = "The ledger.")
    private Path ledger;

    @Option(
            names = {"-o", "--output"},
            required = true,
            paramLabel = "FILE",
            description = "The new design; never the old one.")
    private Path output;

    @Override
    public Integer call() throws BadInput {
        Outputs.checkBesideDesign(output, design.file(), ledger);
        Design read = design.read();
        Ledger kept = LedgerReader.read(ledger, read.fabric(), Progress.NONE);
        PrintWriter out = spec.commandLine().getOut();
        boolean sameRun = kept.digest().equals(Digest.of(design.file()));
        if (!sameRun) {
            out.println(
                    "The ledger was made on another run of "
                            + kept.design()
                            + ": every entry is checked against this one.");
        }
        if (kept.entries().isEmpty() && isLike(design.file(), output)) {
            copy();
            out.println("The ledger is empty: the design's bytes were copied as they are.");
        } else {
            if (sameRun) {
                checkDigests(kept, read);
            }
            write(LedgerTable.apply(kept, read, ledger));
            Design again = DesignReader.read(output, Progress.NONE);
            LedgerTable.print(Harmlessness.between(read, again), out);
        }
        out.println("Written: " + output);
        out.flush();
        return Padward.DONE;
    }

    /** On the run that the ledger was made on, every entry has to give what it gave then. */
    private void checkDigests(Ledger kept, Design read) throws BadInput {
        Design now = read;
        for (int i = 0; i < kept.entries().size(); i++) {
            LedgerEntry entry = kept.entries().get(i);
            now = LedgerTable.apply(new Ledger("", "", List.of(entry)), now, ledger);
            String digest = Digest.of(now);
            if (!digest.equals(entry.after())) {
                throw new BadInput(
                        ledger.toString(), "$.entries[" + i + "].after", digest, entry.after());
            }
        }
    }

    /** Whether the very bytes will do: names of other files are relative, and .gz means gzip. */
    private static boolean isLike(Path one, Path other) {
        return one.toAbsolutePath().getParent().equals(other.toAbsolutePath().getParent())
                && one.toString().endsWith(".gz") == other.toString().endsWith(".gz");
    }

    private void write(Design changed) throws BadInput {
        References references = References.of(design.file()).seenFrom(design.file(), output);
        DesignWriter.write(changed, output, references.fabric(), references.board());
    }

    private void copy() throws BadInput {
        try {
            Files.copy(design.file(), output, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException fault) {
            throw new BadInput(
                    output.toString(), "", "a file that can be written", fault.getMessage());
        }
    }
}
