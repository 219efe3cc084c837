mod v1;
