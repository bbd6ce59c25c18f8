import { complaintOf } from '../command';
import { review } from '../review';
import { takeUnits } from '../say';

// The process of a `Reviewer`: the command on one log after another, as its arguments come in. `review` itself tells
// what it found; an error that is not the user's to put right ends this process, as it ends the command.
process.on('message', async (args: string[]) => {
  try {
    await review(takeUnits('review', args));
  } catch (error) {
    const complaint = complaintOf(error);
    if (complaint === undefined) throw error;
    process.send?.({ failed: complaint.text });
  }
});
