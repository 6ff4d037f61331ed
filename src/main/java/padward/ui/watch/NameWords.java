package padward.ui.watch;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.Stream;
import padward.base.Lazy;
import padward.ui.design.OpenDesign;
import padward.ui.design.SearchableNames;
import padward.ui.model.Suggestions;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;
import padward.watch.condition.ConditionNetNames;

/** Names of the open design for a word that is being typed; found away from the UI thread. */
final class NameWords {
    private static final String IN_NAMES = "_/.:$-#@[]";

    private final WindowModel model;
    private BackgroundWork.Job finding = () -> {};
    private Optional<OpenDesign> known = Optional.empty();
    private Lazy<SearchableNames> vectorsAndNets = new Lazy<>(() -> SearchableNames.NONE);
    private Lazy<SearchableNames> padsAndNets = vectorsAndNets;

    NameWords(WindowModel model) {
        this.model = model;
    }

    /** Whether a character can stand in a name of a condition without a sign before it. */
    static boolean isInName(char c) {
        return Character.isLetterOrDigit(c) || IN_NAMES.indexOf(c) >= 0;
    }

    /** A name as it is written in a condition. */
    static String escaped(String name) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < name.length(); i++) {
            char c = name.charAt(i);
            boolean digit = i == 0 && Character.isDigit(c);
            text.append(digit || !isInName(c) ? "\\" : "").append(c);
        }
        return text.toString();
    }

    /** The name of a word of a condition, without the signs before its characters. */
    static String plain(String word) {
        StringBuilder name = new StringBuilder();
        for (int i = 0; i < word.length(); i++) {
            if (word.charAt(i) == '\\') {
                i++;
            }
            if (i < word.length()) {
                name.append(word.charAt(i));
            }
        }
        return name.toString();
    }

    /** Vectors and nets that fit a word of a condition. */
    void forCondition(String word, Consumer<Suggestions> found) {
        find(plain(word), this::vectorsAndNets, found, NameWords::escaped);
    }

    /** Vectors and nets that fit. */
    void forNets(String word, Consumer<Suggestions> found) {
        find(word, this::vectorsAndNets, found, n -> n);
    }

    /** Nets that fit. */
    void forNet(String word, Consumer<Suggestions> found) {
        find(word, OpenDesign::netNames, found, n -> n);
    }

    /** Pads that fit, by all their names. */
    void forPads(String word, Consumer<Suggestions> found) {
        find(word, OpenDesign::padNames, found, n -> n);
    }

    /** Pads and nets that fit. */
    void forPadsAndNets(String word, Consumer<Suggestions> found) {
        find(word, this::padsAndNets, found, n -> n);
    }

    private interface Names {
        SearchableNames of(OpenDesign opened);
    }

    private interface Spelling {
        String of(String name);
    }

    private void find(String word, Names names, Consumer<Suggestions> found, Spelling spelling) {
        finding.cancel();
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            return;
        }
        OpenDesign on = opened.get();
        finding =
                model.jobs()
                        .background()
                        .start(
                                progress ->
                                        Suggestions.of(word, names.of(on), List.of())
                                                .spelt(spelling::of),
                                found,
                                unexpected -> {});
    }

    /** Vectors before their bits. */
    private SearchableNames vectorsAndNets(OpenDesign opened) {
        return know(opened, () -> vectorsAndNets);
    }

    private SearchableNames padsAndNets(OpenDesign opened) {
        return know(opened, () -> padsAndNets);
    }

    /** Names of a design, which are put together once. */
    private synchronized SearchableNames know(
            OpenDesign opened, Supplier<Lazy<SearchableNames>> which) {
        if (known.filter(k -> k == opened).isEmpty()) {
            known = Optional.of(opened);
            vectorsAndNets =
                    new Lazy<>(
                            () ->
                                    joined(
                                            ConditionNetNames.of(opened.design()).vectorRanges(),
                                            opened.netNames().stream()));
            padsAndNets =
                    new Lazy<>(
                            () -> joined(opened.padNames().stream(), opened.netNames().stream()));
        }
        return which.get().get();
    }

    private static SearchableNames joined(Stream<String> first, Stream<String> then) {
        return new SearchableNames(Stream.concat(first, then).toList());
    }
}
