package padward.ui.control;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import padward.ui.design.OpenDesign;
import padward.ui.design.SearchableNames;
import padward.ui.model.Suggestions;
import padward.ui.work.BackgroundWork;

/**
 * Finds names of the open design for what is typed, away from the UI thread: a design has up to
 * millions, and until they are indexed all of them are looked at. A new search cancels the last.
 */
public final class NamesOfDesign implements CompletingField.Finder {
    private final BackgroundWork background;
    private final Supplier<Optional<OpenDesign>> opened;
    private final Function<OpenDesign, SearchableNames> names;
    private final Supplier<List<String>> recent;
    private final Further further;
    private BackgroundWork.Job finding = () -> {};

    /**
     * @param opened what is open, asked on the UI thread
     * @param names its names, asked elsewhere
     * @param recent recently used names, the latest first, which come before the others; asked on
     *     the UI thread
     */
    public NamesOfDesign(
            BackgroundWork background,
            Supplier<Optional<OpenDesign>> opened,
            Function<OpenDesign, SearchableNames> names,
            Supplier<List<String>> recent) {
        this(background, opened, names, recent, (design, word) -> List.of());
    }

    /**
     * The same with names that are in no list.
     *
     * @param further finds them; asked elsewhere
     */
    public NamesOfDesign(
            BackgroundWork background,
            Supplier<Optional<OpenDesign>> opened,
            Function<OpenDesign, SearchableNames> names,
            Supplier<List<String>> recent,
            Further further) {
        this.background = background;
        this.opened = opened;
        this.names = names;
        this.recent = recent;
        this.further = further;
    }

    /** Finds further names for a word. */
    public interface Further {
        /** Names of the design that begin with the word, or fit it otherwise. */
        List<String> of(OpenDesign design, String word);
    }

    @Override
    public void find(String word, Consumer<Suggestions> found) {
        finding.cancel();
        Optional<OpenDesign> on = opened.get();
        List<String> lately = List.copyOf(recent.get());
        finding =
                background.start(
                        progress -> {
                            Suggestions listed =
                                    Suggestions.of(
                                            word,
                                            on.map(names).orElse(SearchableNames.NONE),
                                            lately);
                            List<String> more = on.map(o -> further.of(o, word)).orElse(List.of());
                            return listed.before(more);
                        },
                        found,
                        unexpected -> {});
    }
}
