//! What a person is shown: the shaft as it stands, the job, what is missing, the review.
