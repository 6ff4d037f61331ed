package padward.cli.option;

import java.util.List;
import padward.base.BadInput;
import padward.design.Design;
import padward.design.board.Attachment;
import picocli.CommandLine.Option;

/** The options that choose some of the pads. */
public final class PadFilterOption {
    @Option(names = "--bank", paramLabel = "BANK", description = "Only pads of this bank.")
    private String bank;

    @Option(
            names = "--header",
            paramLabel = "NAME",
            description = "Only pads on this header, connector or test point of the board.")
    private String header;

    @Option(names = "--free", description = "Only pads without a port.")
    private boolean free;

    @Option(names = "--used", description = "Only pads with a port.")
    private boolean used;

    /** Refuses a bank or header that no pad has. */
    public void check(Design design) throws BadInput {
        boolean bankKnown =
                bank == null
                        || design.fabric().pads().stream()
                                .anyMatch(p -> bank.equalsIgnoreCase(p.bank()));
        if (!bankKnown) {
            throw new BadInput("--bank", "", "the name of a bank that has pads", quoted(bank));
        }
        boolean headerKnown =
                header == null
                        || design.board().wirings().stream()
                                .anyMatch(w -> isOnHeader(w.attachments()));
        if (!headerKnown) {
            String expected = "the name of a header or test point of the board";
            throw new BadInput("--header", "", expected, quoted(header));
        }
    }

    private static String quoted(String text) {
        return "“" + text + "”";
    }

    private boolean isOnHeader(List<Attachment> attachments) {
        return attachments.stream()
                .anyMatch(a -> a.kind().probeable() && a.name().equalsIgnoreCase(header));
    }

    /** Whether a pad, by its index, is one of those. */
    public boolean accepts(Design design, int pad) {
        boolean port = design.findPortOn(pad).isPresent();
        boolean onHeader =
                header == null
                        || design.board()
                                .findWiring(pad)
                                .filter(w -> isOnHeader(w.attachments()))
                                .isPresent();
        return onHeader
                && (bank == null || bank.equalsIgnoreCase(design.fabric().pads().get(pad).bank()))
                && !(free && port)
                && !(used && !port);
    }
}
