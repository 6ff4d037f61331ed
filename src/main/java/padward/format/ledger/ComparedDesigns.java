package padward.format.ledger;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.base.WholeFile;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.design.DesignReader;
import padward.format.json.FileHeader;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * Two designs to be compared, each from a design's file or from a ledger's.
 *
 * @param before the first
 * @param after the second, on a fabric with the same names
 * @param kept the entries that lead from the first to the second, where that is a ledger of the
 *     first; none otherwise
 */
public record ComparedDesigns(Design before, Design after, List<LedgerEntry> kept) {
    /** Copies the entries. */
    public ComparedDesigns {
        kept = List.copyOf(kept);
    }

    /**
     * Reads both. A ledger means the design that it results in: on the other file, if that is a
     * design; else on {@code base}, or on the design that it names, in the ledger's folder.
     *
     * @throws BadInput when a file is at fault, a ledger does not fit, or the fabrics differ
     */
    public static ComparedDesigns read(Path one, Path other, Optional<Path> base, Progress progress)
            throws BadInput {
        boolean firstIsLedger = isLedger(one);
        boolean secondIsLedger = isLedger(other);
        Design before =
                firstIsLedger
                        ? given(one, baseFor(one, other, secondIsLedger, base), progress)
                        : read(one, progress);
        if (!secondIsLedger) {
            return checked(before, read(other, progress), List.of(), other);
        }
        Path under = baseFor(other, one, firstIsLedger, base);
        boolean ofFirst = !firstIsLedger && WholeFile.isSame(under, one);
        Design bare = ofFirst ? before : read(under, progress);
        Ledger kept = ledger(other, under, bare, progress);
        return checked(
                before,
                LedgerReplay.applied(kept, other, bare),
                ofFirst ? kept.entries() : List.of(),
                other);
    }

    private static ComparedDesigns checked(
            Design before, Design after, List<LedgerEntry> kept, Path other) throws BadInput {
        check(before.fabric(), after.fabric(), other);
        return new ComparedDesigns(before, after, kept);
    }

    private static boolean isLedger(Path file) throws BadInput {
        FileHeader head = FileHeader.read(Source.of(file));
        if (!head.format().equals(FileHeader.DESIGN) && !head.format().equals(FileHeader.LEDGER)) {
            throw new BadInput(
                    file.toString(), "$.format", "a design or a ledger", Text.quote(head.format()));
        }
        return head.format().equals(FileHeader.LEDGER);
    }

    private static Design read(Path file, Progress progress) throws BadInput {
        return DesignReader.read(file, progress);
    }

    private static Path baseFor(Path ledger, Path other, boolean otherIsLedger, Optional<Path> base)
            throws BadInput {
        if (base.isPresent()) {
            return base.get();
        }
        if (!otherIsLedger) {
            return other;
        }
        String name = LedgerReader.designOf(ledger);
        Path named = ledger.toAbsolutePath().resolveSibling(name);
        if (!Files.exists(named)) {
            throw new BadInput(
                    ledger.toString(),
                    "$.design",
                    "a design in the ledger's folder, or --design",
                    Text.quote(name) + ", which is not there");
        }
        return named;
    }

    private static Design given(Path ledger, Path base, Progress progress) throws BadInput {
        Design design = read(base, progress);
        return LedgerReplay.applied(ledger(ledger, base, design, progress), ledger, design);
    }

    private static Ledger ledger(Path file, Path base, Design design, Progress progress)
            throws BadInput {
        Ledger read = LedgerReader.read(file, design.fabric(), progress);
        LedgerReplay.checkFile(read, file, base);
        return read;
    }

    /** Designs are compared wire by wire, so the wires must bear the same names. O(vertices). */
    private static void check(Fabric one, Fabric other, Path file) throws BadInput {
        int count = one.vertexCount();
        boolean same = count == other.vertexCount();
        for (int v = 0; same && v < count; v++) {
            same = one.vertexName(v).equals(other.vertexName(v));
        }
        if (!same) {
            throw new BadInput(
                    file.toString(),
                    "$.fabric",
                    "a design on the other's fabric, " + one.info().name(),
                    "one on " + other.info().name());
        }
    }
}
