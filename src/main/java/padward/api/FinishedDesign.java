package padward.api;

import java.nio.file.Path;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.WhyBlocked;
import padward.change.Edit;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Design;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.design.Digest;
import padward.format.design.References;
import padward.format.ledger.EntrySigning;
import padward.format.ledger.LedgerFile;

/**
 * A finished design, with the changes that were kept since it was opened. Keeping makes a new value
 * and leaves this one as it is; only {@link #saveLedger} and {@link #writeCopy} write files, and
 * never the design's own.
 */
public final class FinishedDesign extends AskableDesign {
    private final Path file;
    private final String digest;
    private final Design opened;
    private final List<LedgerEntry> kept;

    private FinishedDesign(
            Path file, String digest, Design opened, Design now, List<LedgerEntry> kept) {
        super(now);
        this.file = file;
        this.digest = digest;
        this.opened = opened;
        this.kept = List.copyOf(kept);
    }

    /**
     * Opens a design's file, with the fabric and the board that it names.
     *
     * @throws BadInput when one of them cannot be read
     */
    public static FinishedDesign open(Path file) throws BadInput {
        // Before the file is read: where it changes meanwhile, saving is refused.
        String digest = Digest.of(file);
        Design read = DesignReader.read(file, Progress.NONE);
        return new FinishedDesign(file, digest, read, read, List.of());
    }

    /** What was kept, in words, in its order. */
    public List<String> kept() {
        return kept.stream().flatMap(e -> e.edits().stream()).map(Edit::toText).toList();
    }

    /**
     * The design with the net brought out as found; where the pad is blocked, by the first option,
     * which only a finding of {@link #ask} has.
     *
     * @throws BadInput when there is no route, the net is there already, or something is not
     *     accepted that has to be
     * @throws IllegalArgumentException when the finding is of another design
     */
    public FinishedDesign keep(Finding finding, Signature signature) throws BadInput {
        Answer answer = finding.answer();
        if (answer.question().design() != design()) {
            throw new IllegalArgumentException("the finding is of another design");
        }
        return with(
                answer.question().net().name(),
                answer.question().padValue().name(),
                edits(answer),
                finding.toAccept(),
                signature);
    }

    private static List<Edit> edits(Answer answer) throws BadInput {
        List<Edit> edits = List.of();
        if (answer instanceof Answer.FreeRoute free) {
            edits = AnswerEdits.of(free);
        } else if (answer instanceof Answer.Blocked blocked) {
            WhyBlocked why =
                    blocked.why()
                            .orElseThrow(
                                    () ->
                                            new BadInput(
                                                    "finding",
                                                    "",
                                                    "a finding of ask, for a blocked pad",
                                                    "one of survey, which has no options"));
            edits =
                    why.options().isEmpty()
                            ? List.of()
                            : AnswerEdits.of(blocked, why.options().get(0));
        }
        if (edits.isEmpty()) {
            throw new BadInput(
                    "finding", "", "a route that is not there yet", "none, or one without options");
        }
        return edits;
    }

    /**
     * The design with a group brought out as found.
     *
     * @throws BadInput when none is served, or something is not accepted that has to be
     */
    public FinishedDesign keep(FoundGroup group, Signature signature) throws BadInput {
        if (group.bus().lines().isEmpty()) {
            throw new BadInput("group", "", "at least one net that is served", "none");
        }
        String nets = String.join(" ", group.lines().stream().map(l -> l.net().name()).toList());
        String pads = String.join(",", group.lines().stream().map(l -> l.pad().name()).toList());
        return with(nets, pads, group.bus().edits(), group.toAccept(), signature);
    }

    private FinishedDesign with(
            String net, String pad, List<Edit> edits, List<String> toAccept, Signature signature)
            throws BadInput {
        if (!signature.accepted().containsAll(toAccept)) {
            throw new BadInput(
                    "accepted",
                    "",
                    String.join(", ", toAccept),
                    signature.accepted().isEmpty()
                            ? "nothing"
                            : String.join(", ", signature.accepted()));
        }
        if (Outcome.of(design(), edits) instanceof Outcome.Refused refused) {
            throw new BadInput(
                    "finding",
                    "",
                    "edits that fit the design",
                    String.join("; ", refused.reasons()));
        }
        LedgerEntry entry =
                EntrySigning.entry(design(), net, pad, edits, signature.who(), signature.note())
                        .accepting(toAccept);
        // The ledger gives the lines their channels.
        List<LedgerEntry> all = new Ledger("", digest, kept).with(entry).entries();
        return new FinishedDesign(file, digest, opened, Outcome.apply(design(), edits), all);
    }

    /**
     * Writes what was kept as a new ledger; without entries where nothing was.
     *
     * @throws BadInput when the file has entries already or cannot be written, or the design's file
     *     is another than when it was opened
     */
    public void saveLedger(Path ledger) throws BadInput {
        LedgerFile.write(
                ledger,
                file,
                opened.fabric(),
                old -> {
                    if (!old.digest().equals(digest)) {
                        throw new BadInput(
                                file.toString(),
                                "",
                                "the design as it was when it was opened, " + digest,
                                "a changed one, " + old.digest());
                    }
                    if (!old.entries().isEmpty()) {
                        throw new BadInput(
                                ledger.toString(),
                                "",
                                "a new ledger",
                                "one with " + old.entries().size() + " entries");
                    }
                    return new Ledger(old.design(), old.digest(), kept);
                });
    }

    /**
     * Writes a copy of the design with all that was kept.
     *
     * @throws BadInput when it is the design's own file, its fabric's or its board's, or cannot be
     *     written
     */
    public void writeCopy(Path copy) throws BadInput {
        References seen = References.of(file).forCopy(file, copy);
        DesignWriter.write(design(), copy, seen.fabric(), seen.board());
    }
}
