package padward.cli.option;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import padward.base.BadInput;
import padward.breakout.ask.Caution;
import padward.breakout.ask.Price;
import padward.breakout.text.PriceText;
import picocli.CommandLine.Option;

/** The option that accepts what a change does on the board. */
public final class AcceptOption {
    @Option(
            names = "--accept",
            split = ",",
            paramLabel = "WORDS",
            description =
                    "What you accept, separated by commas: drives (a part on the board drives the "
                            + "pad), follows (a part on the board will follow the signal), reads (an "
                            + "input port loses its pad). A change that does one of these is kept "
                            + "only with its word, which is recorded with your name and the time.")
    private List<String> words = List.of();

    /**
     * The words to be recorded for a change of this price.
     *
     * @throws BadInput when one is missing, or is no such word
     */
    public List<String> checked(Price price) throws BadInput {
        Set<String> known = new TreeSet<>();
        for (Caution.Kind kind : Caution.Kind.values()) {
            if (kind.needsYes()) {
                known.add(kind.label());
            }
        }
        for (String word : words) {
            if (!known.contains(word)) {
                throw new BadInput("--accept", "", "one of " + String.join(", ", known), word);
            }
        }
        List<String> needed = PriceText.words(price.toAccept());
        if (!words.containsAll(needed)) {
            throw new BadInput(
                    "--accept",
                    "",
                    String.join(",", needed) + " (" + PriceText.acceptance(price) + ")",
                    words.isEmpty() ? "nothing; nothing was kept" : String.join(",", words));
        }
        return needed;
    }
}
