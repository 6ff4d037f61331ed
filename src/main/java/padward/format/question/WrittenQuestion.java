package padward.format.question;

import java.util.List;
import java.util.Optional;
import padward.fabric.delay.Corner;

/**
 * A question as it is written, before its names are looked up.
 *
 * @param line number of its line, from 1
 * @param id what the writer calls it; empty when it has no name
 * @param net the net's name, or a pattern of names
 * @param pad the pad's name of any kind, or what means several pads
 * @param corner the corner at which the route is shortest, where it is stated
 * @param whatIf edits in words, as if they were made
 */
public record WrittenQuestion(
        long line,
        String id,
        String net,
        String pad,
        Optional<Corner> corner,
        List<String> whatIf) {
    /** Copies the edits. */
    public WrittenQuestion {
        whatIf = List.copyOf(whatIf);
    }
}
