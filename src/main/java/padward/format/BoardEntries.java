package padward.format;

import padward.base.BadInput;
import padward.base.Progress;

/** Counts a board's entries where no fabric is at hand to check their pads against. */
final class BoardEntries {
    private BoardEntries() {}

    static int count(Source source, Progress progress) throws BadInput {
        int[] count = {0};
        new Passes()
                .part("format!", JsonIn::skip)
                .part("name!", JsonIn::name)
                .part("note", in -> in.text(Limits.NOTE))
                .part("pads!", in -> count[0] = in.list(BoardEntries::skip).size())
                .run(source, progress);
        return count[0];
    }

    private static Boolean skip(JsonIn in) throws BadInput {
        in.skip();
        return true;
    }
}
