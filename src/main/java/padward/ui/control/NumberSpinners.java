package padward.ui.control;

import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import javafx.beans.property.ObjectProperty;
import javafx.scene.control.Spinner;
import javafx.scene.control.SpinnerValueFactory;
import javafx.util.StringConverter;

/**
 * Fields for numbers that can also be typed. What is not a number is replaced by the number before;
 * numbers are written alike in every locale, and a comma is read as a decimal point.
 */
public final class NumberSpinners {
    private NumberSpinners() {}

    /** A field for a whole number. */
    public static Spinner<Integer> whole(int least, int most, int first, int step) {
        return typed(
                new Spinner<>(least, most, first, step),
                text -> Integer.parseInt(text),
                number -> Integer.toString(number));
    }

    /** A field for a number, which is shown with one decimal, or more if it has more. */
    public static Spinner<Double> decimal(double least, double most, double first, double step) {
        return typed(
                new Spinner<>(least, most, first, step),
                text -> Double.parseDouble(text.replace(',', '.')),
                NumberSpinners::text);
    }

    /** The field shows a value, and changes it. */
    public static void bind(Spinner<Double> spinner, ObjectProperty<Double> value) {
        spinner.getValueFactory().valueProperty().bindBidirectional(value);
    }

    private static String text(double number) {
        String few = String.format(Locale.ROOT, "%.1f", number);
        return Double.parseDouble(few) == number ? few : Double.toString(number);
    }

    private static <T> Spinner<T> typed(
            Spinner<T> spinner, Function<String, T> read, Function<T, String> write) {
        spinner.setEditable(true);
        SpinnerValueFactory<T> values = spinner.getValueFactory();
        values.setConverter(
                new StringConverter<>() {
                    @Override
                    public String toString(T number) {
                        return Optional.ofNullable(number).map(write).orElse("");
                    }

                    @Override
                    public T fromString(String text) {
                        try {
                            return read.apply(text.strip());
                        } catch (NumberFormatException notANumber) {
                            // Shown again, so that nobody takes the text for the number.
                            spinner.getEditor().setText(toString(values.getValue()));
                            return values.getValue();
                        }
                    }
                });
        spinner.getEditor().setText(values.getConverter().toString(values.getValue()));
        return spinner;
    }
}
